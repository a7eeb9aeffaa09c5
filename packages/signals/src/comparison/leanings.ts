import { median, robustSpread } from '../statistics/robust.ts';
import { varianceOfMedian } from './places.ts';

const leastOfAnInstaller = 5;
const mean = (values: readonly number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;

/** How far a reading lies from what its installer reported, a logarithm. */
export interface Off {
  installerId: string | null;
  off: number;
}

/**
 * How far readings lie from what each installer reported, beyond what is usual: the median of his differences, each
 * less the median of its rater, drawn toward nothing as far as chance explains it (normal means with known errors, from
 * memory). Installers with fewer than five, or of whom there is only one, lean to no side. Never throws.
 * @param raters the differences of each rater
 */
export function leaningsOf(raters: readonly (readonly Off[])[]): Map<string, number> {
  const byInstaller = new Map<string, number[]>();
  for (const rows of raters) {
    const middle = median(rows.map(({ off }) => off));
    for (const { installerId, off } of rows) {
      if (installerId === null) continue;
      const known = byInstaller.get(installerId);
      if (known) known.push(off - middle);
      else byInstaller.set(installerId, [off - middle]);
    }
  }
  const groups = [...byInstaller].filter(([, offs]) => offs.length >= leastOfAnInstaller);
  if (groups.length < 2) return new Map();
  const scatter = median(groups.map(([, offs]) => robustSpread(offs)));
  const chance = (count: number) => varianceOfMedian(scatter, count);
  const middles = groups.map(([, offs]) => median(offs));
  const lasting =
    middles.reduce((sum, each) => sum + each * each, 0) / middles.length -
    mean(groups.map(([, offs]) => chance(offs.length)));
  if (lasting <= 0) return new Map();
  return new Map(
    groups.map(([id, offs], i) => [id, (lasting / (lasting + chance(offs.length))) * middles[i]!]),
  );
}
