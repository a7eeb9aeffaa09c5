import type { FrameRow } from './frame.ts';
import { places, shuffleFirst, type Chosen } from './select.ts';
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
  let missing = wanted - shares.reduce((sum, each) => sum + each, 0);
  if (missing > 0) {
    // No quota is missed by a whole file, so that nobody is given a second one.
    const order = [...sizes.keys()].sort((a, b) => shortfall(b) - shortfall(a) || a - b);
    for (const at of order.slice(0, missing)) shares[at]! += 1;
  }
  const large = [...sizes.keys()].filter((at) => shares[at]! > 1);
  for (; missing < 0; missing++) {
    let worst = -1;
    for (const at of large)
      if (shares[at]! > 1 && (worst < 0 || shortfall(at) < shortfall(worst))) worst = at;
    shares[worst]! -= 1;
  }
  return shares;
}

/** The place after the last row of the run that begins at `from`: in steps that double, then halve. */
function endOfRun(rows: readonly FrameRow[], from: number): number {
  const { rater, builder, kind } = rows[from]!;
  const inRun = (at: number) => {
    const row = rows[at];
    return row !== undefined && row.rater === rater && row.builder === builder && row.kind === kind;
  };
  let [last, step] = [from, 1];
  while (inRun(last + step)) {
    last += step;
    step *= 2;
  }
  for (; step >= 1; step /= 2) if (inRun(last + step)) last += step;
  return last + 1;
}

/** The strata rater × builder × visit kind of a frame, in its order, with where each begins. Never throws. */
function strataOf(rows: readonly FrameRow[]): (Stratum & { from: number })[] {
  const strata: (Stratum & { from: number })[] = [];
  for (let from = 0; from < rows.length;) {
    const { rater, builder, kind } = rows[from]!;
    const end = endOfRun(rows, from);
    strata.push({ rater, builder, kind, population: end - from, sample: 0, from });
    from = end;
  }
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
    const items = places(stratum.population, stratum.from);
    shuffleFirst(items, stratum.sample, words);
    for (const position of items.subarray(0, stratum.sample).toSorted())
      chosen.push({ position, chance: [stratum.sample, stratum.population] });
  });
  return { chosen, strata: strata.map(({ from: _, ...stratum }) => stratum) };
}
