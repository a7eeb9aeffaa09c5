import type { ReviewStep } from '@countercheck/contracts';

type Marked = Pick<ReviewStep, 'step' | 'mark'>;

/** Where to go after a mark: the next step without one, from here on and then from the start; else the next one. */
export function nextOpen(steps: readonly Marked[], from: number): number {
  const order = [...steps.keys()].map((i) => (from + 1 + i) % steps.length);
  const open = order.find((i) => steps[i]?.mark === null && i !== from);
  return open ?? Math.min(from + 1, steps.length - 1);
}

/** How far a review has come. */
export function progressOf(steps: readonly Marked[]): { seen: number; findings: number; total: number } {
  return {
    seen: steps.filter(({ mark }) => mark !== null).length,
    findings: steps.filter(({ mark }) => mark === 'finding').length,
    total: steps.length,
  };
}
