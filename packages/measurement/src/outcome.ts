import type { MeasuredValue, Problem, Step, TestOutcome } from './types.ts';

/** A computed thing, or the problem in words that keeps it from being computed. Nothing here throws. */
export type Checked<T> = { ok: true; value: T } | { ok: false; problem: Problem };

/** Wraps a computed value. Never fails. */
export function computed<T>(value: T): { ok: true; value: T } {
  return { ok: true, value };
}

/**
 * Wraps the one problem that stopped a computation.
 * @param path where in the raw reading, e.g. `values.flow`
 * @param code stable code, e.g. `zero-pressure`
 * @param message in words, with the value and what to do
 */
export function problem(path: string, code: string, message: string): { ok: false; problem: Problem } {
  return { ok: false, problem: { path, code, message } };
}

/** The outcome of a test that gave its values, with the working and any remarks. */
export function gave(values: MeasuredValue[], steps: Step[] = [], remarks: string[] = []): TestOutcome {
  return { ok: true, values, steps, remarks };
}

/** The outcome of a test that was refused; at least one problem says why. */
export function refused(...problems: [Problem, ...Problem[]]): TestOutcome {
  return { ok: false, problems };
}
