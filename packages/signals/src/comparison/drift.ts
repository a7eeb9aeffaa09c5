import { studentBeyond } from '../statistics/tails.ts';
import { cusumChart } from '../charts/cusum.ts';
import { individualsChart } from '../charts/individuals.ts';
import { houseMeans } from './matched.ts';

export interface Drift {
  /** readings, and the houses they were taken in */
  n: number;
  houses: number;
  /** change of the reading over the period looked at, as a share */
  change: number;
  /** two-sided, Student's t of the slope */
  p: number;
  /** time at which the sums began to grow, ms since 1970; null when they stayed within their limit */
  since: number | null;
  /** the change is larger than the instrument's stated accuracy and unlikely by chance: worth a look at the bench */
  recall: boolean;
}

const least = 20;
/** A drift is told of at this level; instruments are few and a bench check is cheap. A mark of our own. */
const level = 0.001;

/**
 * Whether an instrument has drifted, seen through field data: the residuals of its readings (see `matched`) against
 * time, a straight line by least squares. Statistic: slope ÷ its standard error; p-value: Student's t with n − 2
 * degrees of freedom. Source: textbook regression, from memory. A recall is suggested only when the change over the
 * period is also larger than the stated accuracy, and never says that the instrument is wrong: the bench does.
 * The readings of a house count as one, their mean: whatever the installer's figures are off by there, they share.
 * @param rows house, time in ms and residual as a share, in any order; residuals beyond 20 % count as 20 %
 * @param accuracy stated, as a share of the reading. Null with fewer than 20 houses or all at one time.
 */
export function drift(
  rows: readonly { houseId: string; at: number; residual: number }[],
  accuracy: number,
): Drift | null {
  const sorted = [...houseMeans(rows)].sort((a, b) => a.at - b.at);
  if (sorted.length < least) return null;
  const ys = sorted.map(({ residual }) => residual);
  const [first, last] = [sorted[0]!.at, sorted.at(-1)!.at];
  if (last === first) return null;
  const xs = sorted.map(({ at }) => (at - first) / (last - first));
  const n = xs.length;
  const mean = (of: readonly number[]) => of.reduce((sum, each) => sum + each, 0) / n;
  const [mx, my] = [mean(xs), mean(ys)];
  const sxx = xs.reduce((sum, x) => sum + (x - mx) ** 2, 0);
  const change = xs.reduce((sum, x, i) => sum + (x - mx) * (ys[i]! - my), 0) / sxx;
  const rest = ys.reduce((sum, y, i) => sum + (y - my - change * (xs[i]! - mx)) ** 2, 0);
  const error = Math.sqrt(rest / (n - 2) / sxx);
  const p = error > 0 ? studentBeyond(change / error, n - 2) : 1;
  const early = ys.slice(0, Math.max(8, Math.floor(n / 3)));
  const chart = individualsChart(ys);
  const target = early.reduce((sum, y) => sum + y, 0) / early.length;
  const sums = chart && chart.sigma > 0 ? cusumChart(ys, { target, sigma: chart.sigma }) : null;
  const since = sums?.since ?? null;
  return {
    ...{ n: rows.length, houses: n, change, p },
    since: since === null ? null : sorted[since]!.at,
    recall: p < level && Math.abs(change) > accuracy,
  };
}
