import type * as z from 'zod';
import type { Access } from './roles.ts';
import type { ErrorCode } from './errors.ts';

/** One endpoint: the API implements it, the page calls it, the API description is generated from it. */
export interface RouteContract<
  Params extends z.ZodType = z.ZodType,
  Query extends z.ZodType = z.ZodType,
  Body extends z.ZodType = z.ZodType,
  Response extends z.ZodType = z.ZodType,
> {
  method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  /** below /api, parameters as `:name` */
  path: string;
  summary: string;
  tag: string;
  access: readonly Access[];
  params?: Params;
  query?: Query;
  body?: Body;
  response: Response;
  /** success status; 200 unless told */
  status?: 200 | 201 | 204;
  /** `multipart` bodies carry one file beside their fields; `binary` bodies are bytes; `bytes` answers with a file */
  form?: 'multipart' | 'binary' | 'bytes';
  /** takes an Idempotency-Key: the deed is done once for a key, and its answer is given again */
  keyed?: true;
  errors?: readonly ErrorCode[];
}

/** Keeps the schemas' exact types, so that both sides infer from the same line. */
export function defineRoute<const C extends RouteContract>(contract: C): C {
  return contract;
}
