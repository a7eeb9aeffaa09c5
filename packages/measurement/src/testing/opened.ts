import type { Checked } from '../outcome.ts';

/** What a computation gave; for tests that expect it to succeed, with the problem in words when it does not. */
export function opened<T>(found: Checked<T>): T {
  if (!found.ok) throw new Error(`${found.problem.path} ${found.problem.code}: ${found.problem.message}`);
  return found.value;
}

/** The code and path of the problem of a computation that was refused; for tests. */
export function refusedWith<T>(found: Checked<T>): string {
  return found.ok ? 'not refused' : `${found.problem.code} at ${found.problem.path}`;
}

/** What people read when a computation is refused: the sentence itself; for tests. */
export function refusalOf<T>(found: Checked<T>): string {
  return found.ok ? 'not refused' : found.problem.message;
}
