import type { Problem } from '../types.ts';

/** Standard uncertainties of inputs by name, in the input's unit; null or left out means not known, 0 exact. */
export type Uncertainties<K extends string> = { readonly [Key in K]?: number | null | undefined };

/**
 * The first problem of several checks, or null. Each check is one of the functions below or null.
 */
export function firstProblem(...checks: (Problem | null)[]): { ok: false; problem: Problem } | null {
  const found = checks.find((check) => check !== null);
  return found ? { ok: false, problem: found } : null;
}

/** Refuses what is not above zero, with the code `not-above-zero`. `unit` is for the words only. */
export function aboveZero(path: string, label: string, value: number, unit: string): Problem | null {
  if (value > 0 && value < Infinity) return null;
  return refusal(path, 'not-above-zero', label, value, unit, 'it must be above zero');
}

/** Refuses what is below zero or no number, with the code `below-zero`. */
export function zeroOrMore(path: string, label: string, value: number, unit: string): Problem | null {
  if (value >= 0 && value < Infinity) return null;
  return refusal(path, 'below-zero', label, value, unit, 'it must be zero or more');
}

/** Refuses what is not a finite number, with the code `not-a-number`. */
export function finite(path: string, label: string, value: number, unit: string): Problem | null {
  if (Number.isFinite(value)) return null;
  return refusal(path, 'not-a-number', label, value, unit, 'it must be a number');
}

/** Refuses a share that is not above 0 and at most 1, with the code `bad-share`. */
export function share(path: string, label: string, value: number): Problem | null {
  if (value > 0 && value <= 1) return null;
  return refusal(path, 'bad-share', label, value, '', 'it must be above 0 and at most 1');
}

/** Refuses a count that is not a whole number from zero on, with the code `bad-count`. */
export function count(path: string, label: string, value: number): Problem | null {
  if (Number.isInteger(value) && value >= 0) return null;
  return refusal(path, 'bad-count', label, value, '', 'it must be a whole number, zero or more');
}

/** Refuses a word that is not on a list, with the code `unknown-choice`, naming what there is. */
export function oneOf(path: string, label: string, value: string, known: readonly string[]): Problem | null {
  if (known.includes(value)) return null;
  const message = `${label} is "${value}", which is not known here; there is ${known.join(', ')}.`;
  return { path, code: 'unknown-choice', message };
}

/** Refuses stated uncertainties that are below zero or no numbers, with the code `bad-uncertainty`. */
export function statedUncertainties(stated: Uncertainties<string> | undefined): Problem | null {
  for (const [key, u] of Object.entries(stated ?? {})) {
    if (u === null || u === undefined || (u >= 0 && u < Infinity)) continue;
    const message = `The standard uncertainty of ${key} is ${u}; it must be zero or more.`;
    return { path: `uncertainties.${key}`, code: 'bad-uncertainty', message };
  }
  return null;
}

function refusal(
  path: string,
  code: string,
  label: string,
  value: number,
  unit: string,
  must: string,
): Problem {
  return { path, code, message: `${label} is ${value}${unit && ` ${unit}`}; ${must}.` };
}
