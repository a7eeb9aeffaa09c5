import type { FrameRow } from './frame.ts';
import { shuffleFirst, type Chosen } from './select.ts';
import type { WordStream } from './words.ts';

/** What one stratum holds and gives. */
export interface Stratum {
  rater: string;
  builder: string;
  kind: string;
  population: number;
  sample: number;
}

/**
 * Shares a sample out over strata in proportion to their size: the whole part of each quota n·N_h / N, at least one,
 * at most all; what is missing goes to the largest shortfalls, what is too much comes off the largest excesses that
 * leave one. Ties go to the earlier stratum. Where there are more strata than n, each gives one and the sample
 * grows. Never throws. Source: largest remainders with a minimum of one – common practice, no published source.
 */
export function allocate(sizes: readonly number[], size: number): number[] {
  const population = sizes.reduce((sum, each) => sum + each, 0);
  const wanted = Math.max(Math.min(size, population), sizes.length);
  const shares = sizes.map((each) => Math.min(each, Math.max(1, Math.floor((wanted * each) / population))));
  // In units of 1 / N of a file, so that all of it stays in whole numbers.
  const shortfall = (at: number) => wanted * sizes[at]! - shares[at]! * population;
  let given = shares.reduce((sum, each) => sum + each, 0);
  const best = (may: (at: number) => boolean, value: (at: number) => number) => {
    let found = -1;
    for (let at = 0; at < sizes.length; at++)
      if (may(at) && (found < 0 || value(at) > value(found))) found = at;
    return found;
  };
  for (; given < wanted; given++) shares[best((at) => shares[at]! < sizes[at]!, shortfall)]! += 1;
  for (; given > wanted; given--)
    shares[
      best(
        (at) => shares[at]! > 1,
        (at) => -shortfall(at),
      )
    ]! -= 1;
  return shares;
}

/** The strata rater × builder × visit kind of a frame, in its order, with where each begins. Never throws. */
function strataOf(rows: readonly FrameRow[]): (Stratum & { from: number })[] {
  const strata: (Stratum & { from: number })[] = [];
  rows.forEach(({ rater, builder, kind }, at) => {
    const last = strata.at(-1);
    if (last?.rater === rater && last.builder === builder && last.kind === kind) last.population += 1;
    else strata.push({ rater, builder, kind, population: 1, sample: 0, from: at });
  });
  return strata;
}

/**
 * A simple sample in each stratum rater × builder × visit kind, one after the other along the frame; the chance of
 * a file is that of its stratum, n_h / N_h. Never throws.
 */
export function stratifiedSample(
  rows: readonly FrameRow[],
  size: number,
  words: WordStream,
): { chosen: Chosen[]; strata: Stratum[] } {
  const strata = strataOf(rows);
  const shares = allocate(
    strata.map(({ population }) => population),
    size,
  );
  const chosen: Chosen[] = [];
  strata.forEach((stratum, at) => {
    stratum.sample = shares[at]!;
    const items = Uint32Array.from({ length: stratum.population }, (_, k) => stratum.from + k);
    shuffleFirst(items, stratum.sample, words);
    for (const position of items.subarray(0, stratum.sample).toSorted())
      chosen.push({ position, chance: [stratum.sample, stratum.population] });
  });
  return { chosen, strata: strata.map(({ from: _, ...stratum }) => stratum) };
}
