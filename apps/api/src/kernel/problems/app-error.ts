import { errorRegistry, type ErrorCode, type ProblemDetails } from '@countercheck/contracts';

export interface FieldProblem {
  path: string;
  message: string;
}

/** A refusal that the person can understand: a code of the registry, and what is particular this time. */
export class AppError extends Error {
  readonly status: number;

  constructor(
    readonly code: ErrorCode,
    readonly detail?: string,
    readonly fields?: FieldProblem[],
    readonly retryAfterSeconds?: number,
  ) {
    super(detail ?? errorRegistry[code].title);
    this.name = 'AppError';
    this.status = errorRegistry[code].status;
  }

  toProblem(requestId?: string): ProblemDetails {
    const { title, status, remedy } = errorRegistry[this.code];
    return {
      type: `/docs/errors#${this.code}`,
      title,
      status,
      code: this.code,
      remedy,
      ...(this.detail === undefined ? {} : { detail: this.detail }),
      ...(this.fields === undefined ? {} : { fields: this.fields }),
      ...(this.retryAfterSeconds === undefined ? {} : { retryAfterSeconds: this.retryAfterSeconds }),
      ...(requestId === undefined ? {} : { requestId }),
    };
  }
}

/** The record, or the one answer for "does not exist" and "is not yours". */
export function found<T>(record: T | null | undefined, what = 'record'): T {
  if (record === null || record === undefined) throw new AppError('not-found', `There is no such ${what}.`);
  return record;
}

export function invalid(path: string, message: string): AppError {
  return new AppError('invalid-input', undefined, [{ path, message }]);
}
