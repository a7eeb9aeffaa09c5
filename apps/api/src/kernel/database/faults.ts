import { AppError } from '../problems/app-error.ts';

interface Faulty {
  code?: unknown;
  originalCode?: unknown;
  constraint?: unknown;
  message?: unknown;
  cause?: unknown;
  meta?: unknown;
  driverAdapterError?: unknown;
}

/** PostgreSQL's own code and the constraint named, wherever the layers above have wrapped them. */
export function postgresFault(error: unknown): { code: string; text: string } | undefined {
  let text = '';
  let found: string | undefined;
  const seen = new Set<unknown>();
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null || seen.has(value)) return;
    seen.add(value);
    const fault = value as Faulty;
    for (const candidate of [fault.originalCode, fault.code]) {
      if (typeof candidate === 'string' && /^[0-9A-Z]{5}$/.test(candidate) && !/^P2\d{3}$/.test(candidate))
        found ??= candidate;
      if (candidate === 'P2002') found ??= '23505';
      if (candidate === 'P2003') found ??= '23503';
    }
    if (typeof fault.message === 'string') text += ` ${fault.message}`;
    if (typeof fault.constraint === 'object') text += ` ${JSON.stringify(fault.constraint)}`;
    else if (typeof fault.constraint === 'string') text += ` ${fault.constraint}`;
    visit(fault.meta);
    visit(fault.driverAdapterError);
    visit(fault.cause);
  };
  visit(error);
  if (found === undefined && /23P01|exclusion constraint/.test(text)) found = '23P01';
  return found === undefined ? undefined : { code: found, text };
}

/** What a refusal by the database means to the person who asked; undefined when it is a fault of ours. */
export function databaseProblem(error: unknown): AppError | undefined {
  if (error instanceof AppError) return error;
  const name = error instanceof Error ? error.name : '';
  const message = error instanceof Error ? error.message : String(error);
  if (
    /PrismaClientInitializationError/.test(name) ||
    /ECONNREFUSED|ECONNRESET|Connection terminated|timeout exceeded when trying to connect|Unable to start a transaction|terminating connection|the database system is/.test(
      message,
    )
  ) {
    return new AppError('database-unavailable');
  }
  const fault = postgresFault(error);
  if (!fault) return undefined;
  if (fault.code === '23P01') return new AppError('rater-double-booked');
  if (fault.code === '23505') return new AppError('already-exists');
  if (fault.code === '23503') return new AppError('not-found', 'A record this refers to does not exist.');
  if (fault.code === '42501') return new AppError('not-allowed');
  if (fault.code === '40001' || fault.code === '40P01') return new AppError('conflict');
  if (/^(08|57P)/.test(fault.code)) return new AppError('database-unavailable');
  return undefined;
}
