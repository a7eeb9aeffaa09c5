import type { ErrorCode } from '@countercheck/contracts';
import { AppError } from '../problems/app-error.ts';

interface Wrapped {
  code?: unknown;
  originalCode?: unknown;
  kind?: unknown;
  constraint?: unknown;
  message?: unknown;
  cause?: unknown;
  meta?: unknown;
  driverAdapterError?: unknown;
}

interface Fault {
  /** PostgreSQL's own code, when it was the server that refused */
  code: string | undefined;
  /** true when there was no server to refuse anything, or it is going away, or has no room: class 53, a full disk too */
  away: boolean;
  /** every message and constraint on the way, for telling one constraint from another */
  text: string;
}

const clientCode = /^P[1-6]\d{3}$/;
const serverCode = /^[0-9A-Z]{5}$/;
/** the client's own codes for what the server said, where it does not hand on the original */
const translated: Record<string, string> = {
  ...{ P2002: '23505', P2003: '23503', P2034: '40001' },
  // A row that is not there, or that row-level security hides, could not be changed.
  P2025: '02000',
};
const unreachable = new Set([
  ...['P1000', 'P1001', 'P1002', 'P1003', 'P1008', 'P1010', 'P1017', 'P2024', 'P2037'],
  ...['ENOTFOUND', 'ECONNREFUSED', 'ECONNRESET', 'ETIMEDOUT', 'EPIPE'],
  ...['DatabaseNotReachable', 'ConnectionClosed', 'SocketTimeout', 'TooManyConnections'],
]);
// The pool and the client say these without any code.
const unreachableText =
  /Connection terminated|timeout exceeded when trying to connect|Unable to start a transaction in the given time|Connection ended|not queryable/;

function look(error: unknown): Fault {
  const fault: Fault = { code: undefined, away: false, text: '' };
  let guess: string | undefined;
  const seen = new Set<unknown>();
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null || seen.has(value)) return;
    seen.add(value);
    const layer = value as Wrapped;
    for (const word of [layer.originalCode, layer.code, layer.kind]) {
      if (typeof word !== 'string') continue;
      if (unreachable.has(word)) fault.away = true;
      else if (clientCode.test(word)) guess ??= translated[word];
      else if (word !== layer.kind && serverCode.test(word)) fault.code ??= word;
    }
    for (const word of [layer.message, layer.constraint])
      if (word !== undefined) fault.text += ` ${typeof word === 'string' ? word : JSON.stringify(word)}`;
    for (const next of [layer.meta, layer.driverAdapterError, layer.cause]) visit(next);
  };
  visit(error);
  fault.code ??= guess;
  fault.away ||=
    fault.code === undefined ? unreachableText.test(fault.text) : /^(08|57P|53)/.test(fault.code);
  return fault;
}

/** PostgreSQL's own code and the constraint named, wherever the layers above have wrapped them. */
export function postgresFault(error: unknown): { code: string; text: string } | undefined {
  const { code, text } = look(error);
  return code === undefined ? undefined : { code, text };
}

const unkeepable = 'There is a character in it that cannot be kept.';

/** Rules about persons that the database keeps whatever a query forgot: a part of the constraint's name, and the code. */
const personRules: readonly [string, ErrorCode][] = [
  ['visits_rater_held', 'rater-held'],
  ['retests_second_rater', 'second-rater-needed'],
  ['file_reviews_two_persons', 'own-work'],
  ['file_review_findings_settled_by_another', 'own-work'],
  ['file_review_findings_decided_by_another', 'own-work'],
];

function ruleBroken(text: string): AppError | undefined {
  const rule = personRules.find(([name]) => text.includes(name));
  return rule && new AppError(rule[1]);
}

/** What a refusal by the database means to the person who asked; undefined when it is a fault of ours. */
export function databaseProblem(error: unknown): AppError | undefined {
  if (error instanceof AppError) return error;
  const { code, away, text } = look(error);
  if (away) return new AppError('database-unavailable');
  switch (code) {
    // The one exclusion constraint there is.
    case '23P01':
      return new AppError('rater-double-booked');
    case '23514':
      return ruleBroken(text);
    case '23505':
      return new AppError('already-exists');
    case '02000':
      return new AppError('not-found');
    case '23503':
      return new AppError('not-found', 'A record this refers to does not exist.');
    case '42501':
      return new AppError('not-allowed');
    // A zero byte, or half of a character, in a text or in JSON.
    case '22021':
    case '22P05':
      return new AppError('invalid-input', unkeepable);
    case '22P02':
      return /\bjson/i.test(text) ? new AppError('invalid-input', unkeepable) : undefined;
    case '40001':
    case '40P01':
      return new AppError('conflict');
    default:
      return undefined;
  }
}
