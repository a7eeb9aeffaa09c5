import { type Checked, computed, problem } from '../outcome.ts';
import { type StatedUncertainty, statedUncertainty } from '../uncertainty/coverage.ts';
import { fromHalfWidth } from '../uncertainty/distributions.ts';
import { plainNumber } from '../units/round.ts';
import type { WorkingLine } from '../working/worked.ts';

/** One cause of error, as it is known. */
export interface BudgetPart {
  label: string;
  /** how large, in the unit of what it is an error of; zero or more */
  size: number;
  /**
   * what the size is: the limit of an error that may be anything up to it (`rectangular`), is more likely small
   * (`triangular`) or swings (`arcsine`); a standard uncertainty; or an expanded one with k = 2
   */
  shape: 'rectangular' | 'triangular' | 'arcsine' | 'standard' | 'expanded';
  /** how much the result moves for one unit of it; 1 when left out */
  sensitivity?: number;
}

export interface BudgetLine {
  label: string;
  /** what it adds, as a standard uncertainty in the unit of the result */
  standardUncertainty: number;
  /** its share of the result's variance, 0 to 1; 0 when there is no uncertainty at all */
  share: number;
}

export interface ErrorBudget extends StatedUncertainty {
  /** in the unit of the result */
  standardUncertainty: number;
  unit: string;
  /** every part, the largest first */
  parts: BudgetLine[];
  /** a line for each part that adds anything, then the root of the sum of their squares */
  steps: WorkingLine[];
}

/**
 * The error budget of a result: each cause of error as a standard uncertainty in the result's unit, and their root
 * sum of squares, u = √Σ(c·u(x))². The causes must have nothing to do with each other.
 * Sizes become standard uncertainties by rectangular a / √3, triangular a / √6, arcsine a / √2, expanded U / 2.
 * @param unit of the result, for the working
 * Problems: `no-parts`, `bad-part` (a size below zero or no number, a sensitivity that is no number). Never throws.
 * Source: JCGM 100, 4.3.7, 4.3.9 and 5.1.2 (from memory); the parts of its example H.1 (seen) give its result.
 */
export function errorBudget(unit: string, parts: readonly BudgetPart[]): Checked<ErrorBudget> {
  if (parts.length === 0) return problem('parts', 'no-parts', 'An error budget needs a part or more.');
  const lines: BudgetLine[] = [];
  const steps: WorkingLine[] = [];
  for (const [i, part] of parts.entries()) {
    const { label, size, shape, sensitivity = 1 } = part;
    if (!(size >= 0 && size < Infinity) || !Number.isFinite(sensitivity)) {
      const message = `The error "${label}" is ${size} with a sensitivity of ${sensitivity}; it must be zero or more, the sensitivity a number.`;
      return problem(`parts.${i}`, 'bad-part', message);
    }
    const u = Math.abs(sensitivity) * standard(size, shape);
    lines.push({ label, standardUncertainty: u, share: 0 });
    if (u > 0) steps.push({ label, working: workingOf(part), value: u, unit });
  }
  const u = Math.hypot(...lines.map((line) => line.standardUncertainty));
  const squares = steps.map(({ value }) => `${short(value)}²`).join(' + ') || '0';
  steps.push({ label: 'Standard uncertainty', working: `√(${squares})`, value: u, unit });
  const shared = lines.map((line) => ({
    ...line,
    share: u === 0 ? 0 : (line.standardUncertainty / u) ** 2,
  }));
  return computed({
    ...statedUncertainty(u),
    standardUncertainty: u,
    unit,
    parts: shared.sort((a, b) => b.standardUncertainty - a.standardUncertainty),
    steps,
  });
}

const divisors = {
  rectangular: ' / √3',
  triangular: ' / √6',
  arcsine: ' / √2',
  standard: '',
  expanded: ' / 2',
};

function standard(size: number, shape: BudgetPart['shape']): number {
  if (shape === 'standard') return size;
  return shape === 'expanded' ? size / 2 : fromHalfWidth(size, shape);
}

function workingOf({ size, shape, sensitivity = 1 }: BudgetPart): string {
  const by = sensitivity === 1 ? '' : ` × ${short(Math.abs(sensitivity))}`;
  return `${short(size)}${divisors[shape]}${by}`;
}

// Sizes run from millionths to thousands; four digits say enough of any of them.
function short(value: number): string {
  return value !== 0 && Math.abs(value) < 0.01 ? String(Number(value.toPrecision(4))) : plainNumber(value, 4);
}
