/** What happened at one length of waiting. */
export interface WaitingStep {
  /** length of the wait, in whatever unit all of them have; rising */
  time: number;
  /** how many waits ended then */
  ended: number;
  /** how many were no longer, or are not yet, watched beyond it */
  censored: number;
}

export interface SurvivalStep extends WaitingStep {
  atRisk: number;
  /** share still waiting after this time */
  waiting: number;
  low: number;
  high: number;
}

/** The 0.975 quantile of the normal distribution. */
const z95 = 1.959963984540054;

/** Greenwood's variance carried over to log(-log S): the interval stays between 0 and 1. */
function interval(share: number, greenwood: number): { low: number; high: number } {
  if (share === 0 || share === 1) return { low: share, high: share };
  const spread = Math.exp((z95 * Math.sqrt(greenwood)) / Math.log(share));
  return { low: share ** (1 / spread), high: share ** spread };
}

/**
 * The share still waiting after each time at which a wait ended or was censored, by the product-limit estimate of
 * Kaplan and Meier, with pointwise 95 % intervals from Greenwood's formula on the log-log scale. Who is censored at
 * the time of an end counts as having waited beyond it. Assumes that what is censored would have gone on like the
 * rest. Gives one step for each step given; throws a RangeError when times do not rise or counts are no counts.
 */
export function kaplanMeier(steps: readonly WaitingStep[]): SurvivalStep[] {
  let atRisk = 0;
  let before = -Infinity;
  for (const { time, ended, censored } of steps) {
    if (!(time > before)) throw new RangeError('Times have to rise.');
    if (![ended, censored].every((count) => Number.isSafeInteger(count) && count >= 0))
      throw new RangeError('Counts are whole numbers from 0 on.');
    before = time;
    atRisk += ended + censored;
  }
  let waiting = 1;
  let greenwood = 0;
  return steps.map((step) => {
    const { ended, censored } = step;
    const here = atRisk;
    if (ended > 0) {
      waiting *= 1 - ended / here;
      greenwood += here === ended ? 0 : ended / (here * (here - ended));
    }
    atRisk -= ended + censored;
    return { ...step, atRisk: here, waiting, ...interval(waiting, greenwood) };
  });
}

/**
 * The first time after which at most 1 - `share` still wait: 0.5 gives the median. Null when so many have not ended
 * yet. Throws a RangeError at a share outside 0 to 1.
 */
export function waitingQuantile(curve: readonly SurvivalStep[], share: number): number | null {
  if (!(share > 0 && share < 1)) throw new RangeError('A share lies between 0 and 1.');
  // A product of fractions may miss the exact half by its last bit.
  return curve.find(({ waiting }) => waiting <= 1 - share + 1e-12)?.time ?? null;
}
