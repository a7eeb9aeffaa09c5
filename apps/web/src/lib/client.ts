import type { ProblemDetails, RouteContract } from '@countercheck/contracts';
import type * as z from 'zod';
import { ApiProblem } from './problem.ts';
import { noteServiceTime } from './service-clock.ts';

type InputOf<R, Key extends string> = R extends { [K in Key]: infer S extends z.ZodType }
  ? z.input<S>
  : undefined;

/** What a route must be given: only the parts that its contract names. */
export type ArgsOf<R extends RouteContract> = (R extends { params: z.ZodType }
  ? { params: InputOf<R, 'params'> }
  : unknown) &
  (R extends { query: z.ZodType } ? { query?: InputOf<R, 'query'> } : unknown) &
  (R extends { body: z.ZodType } ? { body: InputOf<R, 'body'> } : unknown);
export type BodyOf<R extends RouteContract> = InputOf<R, 'body'>;
export type AnswerOf<R extends RouteContract> = z.output<R['response']>;

interface LooseArgs {
  params?: Record<string, unknown>;
  query?: Record<string, unknown>;
  body?: unknown;
}

/** The address of a route, for links, pictures and downloads as well as for `call`. */
export function urlOf<R extends RouteContract>(route: R, args: ArgsOf<R>): string {
  const { params = {}, query = {} } = args as LooseArgs;
  const path = route.path.replace(/:([A-Za-z]+)/g, (_, name: string) =>
    encodeURIComponent(String(params[name])),
  );
  const search = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) {
    if (value !== undefined && value !== null && value !== '') search.set(name, String(value));
  }
  return `/api${path}${search.size > 0 ? `?${search}` : ''}`;
}

/** How a request is sent, where it is not as all others. */
export interface Sending {
  signal?: AbortSignal;
  headers?: Record<string, string>;
}

/** Calls one endpoint. Throws `ApiProblem` for what the server refuses, `TypeError` when it is not reached. */
export function call<R extends RouteContract>(
  route: R,
  args: ArgsOf<R>,
  { signal, headers = {} }: Sending = {},
): Promise<AnswerOf<R>> {
  const { body } = args as LooseArgs;
  const hasBody = route.body !== undefined;
  return send(route, urlOf(route, args), {
    ...(hasBody ? { body: JSON.stringify(body) } : {}),
    headers: { ...(hasBody ? { 'content-type': 'application/json' } : {}), ...headers },
    ...(signal ? { signal } : {}),
  });
}

/** Sends bytes to a binary route. */
export function sendBytes<R extends RouteContract>(
  route: R,
  args: Omit<ArgsOf<R>, 'body'>,
  bytes: ArrayBuffer,
  { signal, headers = {} }: Sending = {},
): Promise<AnswerOf<R>> {
  return send(route, urlOf(route, args as ArgsOf<R>), {
    body: bytes,
    headers: { 'content-type': 'application/octet-stream', ...headers },
    ...(signal ? { signal } : {}),
  });
}

/** Sends the fields of a multipart route and its one file. */
export function upload<R extends RouteContract>(
  route: R,
  args: ArgsOf<R>,
  file: Blob,
  fileName = 'photo',
): Promise<AnswerOf<R>> {
  const form = new FormData();
  for (const [name, value] of Object.entries((args as LooseArgs).body ?? {})) {
    if (value !== undefined && value !== null) form.append(name, String(value));
  }
  // The file comes last, so that the server knows what it is for before the bytes arrive.
  form.append('file', file, fileName);
  return send(route, urlOf(route, args), { body: form, headers: {} });
}

async function send<R extends RouteContract>(
  route: R,
  url: string,
  init: { body?: NonNullable<RequestInit['body']>; headers: Record<string, string>; signal?: AbortSignal },
): Promise<AnswerOf<R>> {
  const response = await fetch(url, {
    ...init,
    method: route.method,
    // A page of another site cannot set this header, which is how the server knows its own.
    headers: { accept: 'application/json', 'x-requested-with': 'countercheck', ...init.headers },
    credentials: 'same-origin',
  });
  noteServiceTime(response.headers.get('date'));
  if (!response.ok) throw await problemOf(response);
  return (response.status === 204 ? null : await response.json()) as AnswerOf<R>;
}

async function problemOf(response: Response): Promise<ApiProblem> {
  const body: unknown = await response.json().catch(() => null);
  if (body && typeof body === 'object' && 'code' in body) return new ApiProblem(body as ProblemDetails);
  // A proxy in between may answer without the service having been asked.
  return new ApiProblem({
    type: 'about:blank',
    code: 'internal-error',
    status: response.status,
    title: 'The service gave an answer that cannot be read',
    remedy: 'Try again shortly; nothing was lost on the page.',
  });
}
