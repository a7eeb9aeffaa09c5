import { PhoneProblem } from './phone/problem.ts';
import type { ErrorCode, ProblemDetails } from '@countercheck/contracts';

/** What the server said was wrong, as an error that pages can show in words. */
export class ApiProblem extends Error {
  readonly details: ProblemDetails;

  constructor(details: ProblemDetails) {
    super(details.detail ?? details.title);
    this.name = 'ApiProblem';
    this.details = details;
  }

  get code(): ErrorCode {
    return this.details.code;
  }
}

export interface ProblemWords {
  title: string;
  detail: string | null;
  remedy: string;
  requestId: string | null;
}

/** The words for any error; a lost connection is the one the server cannot word itself. */
export function inWords(error: unknown): ProblemWords {
  if (error instanceof ApiProblem) {
    const { title, detail, remedy, requestId } = error.details;
    return {
      title,
      detail: detail && detail !== title ? detail : null,
      remedy,
      requestId: requestId ?? null,
    };
  }
  if (error instanceof PhoneProblem)
    return { title: error.title, detail: null, remedy: error.remedy, requestId: null };
  if (error instanceof TypeError) {
    return {
      title: 'The service cannot be reached',
      detail: null,
      remedy: 'Check the connection and try again; what you entered stays on the page.',
      requestId: null,
    };
  }
  return {
    title: 'This page ran into a fault',
    detail: error instanceof Error ? error.message : null,
    remedy: 'Try again; reload the page if it stays.',
    requestId: null,
  };
}

/** Fields the server found fault with, by path. */
export function fieldProblems(error: unknown): Record<string, string> {
  if (!(error instanceof ApiProblem)) return {};
  return Object.fromEntries((error.details.fields ?? []).map(({ path, message }) => [path, message]));
}

export function hasCode(error: unknown, ...codes: ErrorCode[]): boolean {
  return error instanceof ApiProblem && codes.includes(error.code);
}
