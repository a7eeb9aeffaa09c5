import type { Problem } from '@countercheck/measurement';
import type { InstrumentError, Recall } from './recall.ts';

const isoDate = /^\d{4}-\d{2}-\d{2}$/;

function problem(path: string, code: string, message: string): Problem {
  return { path, code, message };
}

function errorProblem(error: InstrumentError): Problem | null {
  switch (error.kind) {
    case 'offset':
      return Number.isFinite(error.value)
        ? null
        : problem('error.value', 'not-a-number', 'The offset is not a number.');
    case 'gain':
      if (!Number.isFinite(error.percent))
        return problem('error.percent', 'not-a-number', 'The gain error is not a number.');
      return error.percent > -100
        ? null
        : problem('error.percent', 'impossible-gain', 'At −100 % the instrument would have shown nothing.');
    case 'coefficient': {
      if (error.ranges.length === 0)
        return problem('error.ranges', 'missing', 'Name the ranges whose coefficient was wrong.');
      const i = error.ranges.findIndex(({ factor }) => !Number.isFinite(factor) || factor <= 0);
      if (i >= 0)
        return problem(`error.ranges.${i}.factor`, 'impossible-factor', 'The factor has to be above 0.');
      const twice = error.ranges.findIndex(({ range }, j) =>
        error.ranges.some((other, k) => k < j && other.range === range),
      );
      return twice < 0
        ? null
        : problem(`error.ranges.${twice}.range`, 'twice', 'This range is in the list twice.');
    }
  }
}

/**
 * What makes a recall impossible to work out, or null: dates that are none or out of order, an error that is
 * not a number, a gain of −100 % or less, a factor of 0 or less, a range named twice. Never throws.
 */
export function recallProblem({ from, to, error }: Recall): Problem | null {
  if (!isoDate.test(from)) return problem('from', 'not-a-date', 'The first day is not a date (yyyy-mm-dd).');
  if (!isoDate.test(to)) return problem('to', 'not-a-date', 'The last day is not a date (yyyy-mm-dd).');
  if (to < from) return problem('to', 'out-of-order', 'The last day lies before the first.');
  return errorProblem(error);
}
