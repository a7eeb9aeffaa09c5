import type { Step } from '@countercheck/measurement';

/** The lines of a computation that lead to one of its results; all of them when none gives just that number. */
export function stepsTo<S extends Pick<Step, 'value'> & { unit: string }>(
  { value, unit }: { value: number; unit: string },
  steps: readonly S[],
): readonly S[] {
  const last = steps.findLastIndex((step) => step.unit === unit && step.value === value);
  return last === -1 ? steps : steps.slice(0, last + 1);
}
