import type { Figure } from '../figures.ts';
import { chisquareAbove } from '../statistics/tails.ts';
import { mostHouses, percent, tooLittle, type Outcome } from './finding.ts';

const least = 60;
/** A field is looked at when its values, over all raters, spread over so many steps of the display. */
const leastSteps = 12;
/** … and this rater's over so many, who may have houses of one plan only; of fewer not every digit is as frequent. */
const leastOwnSteps = 6;

/** A number of a display with its last digit. */
interface Digit {
  houseId: string;
  digit: number;
}

/** Spread of each field over everybody's readings, in steps of its display; readings are added rater by rater. */
export function stepsByField(): { add(figures: readonly Figure[]): void; spreads(): Map<string, number> } {
  const sums = new Map<string, { n: number; sum: number; squares: number }>();
  return {
    add(figures) {
      for (const { shown } of figures)
        for (const { field, value, step, setPoint } of shown) {
          if (setPoint || !step) continue;
          const x = value / step;
          const known = sums.get(field) ?? { n: 0, sum: 0, squares: 0 };
          sums.set(field, { n: known.n + 1, sum: known.sum + x, squares: known.squares + x * x });
        }
    },
    spreads: () =>
      new Map(
        [...sums].map(([field, { n, sum, squares }]) => [
          field,
          Math.sqrt(Math.max(0, squares / n - (sum / n) ** 2)),
        ]),
      ),
  };
}

function digits(figures: readonly Figure[], steps: ReadonlyMap<string, number>): Digit[] {
  const own = stepsByField();
  own.add(figures);
  const ownSteps = own.spreads();
  const wide = (field: string) =>
    (steps.get(field) ?? 0) >= leastSteps && (ownSteps.get(field) ?? 0) >= leastOwnSteps;
  return figures.flatMap(({ houseId, shown }) =>
    shown.flatMap(({ field, value, step, setPoint }) =>
      step && !setPoint && wide(field) ? [{ houseId, digit: Math.abs(Math.round(value / step)) % 10 }] : [],
    ),
  );
}

/**
 * Are some last digits of the display preferred?
 *
 * Null hypothesis: the last digit of a display is equally often each of the ten. It holds for any smooth
 * distribution that is wide against ten steps: for a normal one whose standard deviation is 12 steps the shares
 * differ from a tenth by less than 1e-12 (the first Fourier coefficient is exp(−2π²(12/10)²); computed). Only
 * fields that spread so far over all raters, and over half as much in this one's houses (shares then differ by less
 * than a thousandth of a tenth), are looked at, and never a pressure that the rater sets.
 * Statistic: Σ (found − expected)² ÷ expected over the ten digits. p-value: upper tail of chi-square with nine
 * degrees of freedom. Source: Pearson's chi-square test (textbook, from memory).
 * Fewer than 60 digits: no p-value. Never throws.
 */
export function lastDigits(figures: readonly Figure[], steps: ReadonlyMap<string, number>): Outcome {
  const seen = digits(figures, steps);
  if (seen.length < least) return tooLittle('last-digits', seen.length);
  const counts = new Array<number>(10).fill(0);
  for (const { digit } of seen) counts[digit]! += 1;
  const expected = seen.length / 10;
  const statistic = counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
  const preferred = counts
    .map((count, digit) => ({ count, digit }))
    .filter(({ count }) => count > expected * 1.3)
    .sort((a, b) => b.count - a.count)
    .map(({ digit }) => digit);
  const share = preferred.reduce((sum, digit) => sum + counts[digit]!, 0) / seen.length;
  const behind = new Map<string, number>();
  for (const { houseId, digit } of seen)
    if (preferred.includes(digit)) behind.set(houseId, (behind.get(houseId) ?? 0) + 1);
  const houseIds = [...behind].sort((a, b) => b[1] - a[1]).map(([id]) => id);
  return {
    signal: 'last-digits',
    looked: seen.length,
    p: chisquareAbove(statistic, 9),
    sentence:
      preferred.length === 0
        ? `The last digits of ${seen.length} displayed numbers are not equally frequent.`
        : `${percent(share)} of ${seen.length} displayed numbers end in ${preferred.join(' or ')}; ${percent(preferred.length / 10)} would be usual.`,
    houseIds: houseIds.slice(0, mostHouses),
    evidence: {
      kind: 'bars',
      xLabel: 'Last digit',
      yLabel: 'How often',
      columns: ['Last digit', 'Found', 'Expected'],
      rows: counts.map((count, digit) => [String(digit), count, Number(expected.toFixed(1))]),
    },
  };
}
