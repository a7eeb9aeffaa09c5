/** What a sequential plan separates, and the risks it takes. */
export interface SequentialAim {
  /** share of defective ones that should be accepted */
  good: number;
  /** share that should not */
  bad: number;
  /** producer's risk: not accepting the good share */
  alpha: number;
  /** consumer's risk: accepting the bad share */
  beta: number;
}

/** Two parallel lines: accept while found ≤ slope·n − acceptIntercept, do not while found ≥ slope·n + rejectIntercept. */
export interface SequentialPlan {
  slope: number;
  acceptIntercept: number;
  rejectIntercept: number;
  /** files looked at before anything can be accepted */
  firstAcceptance: number;
  /** expected number of files at the good and at the bad share (Wald's approximation) */
  expectedAtGood: number;
  expectedAtBad: number;
}

/**
 * Wald's sequential probability ratio test for a share. The stated risks are met approximately, and their sum is
 * not above alpha + beta; the exact ones of a plan are worked out in the tests. Throws RangeError unless
 * 0 < good < bad < 1 and both risks lie above 0 with a sum below 1. Source: Wald, Sequential Analysis, 1947 (from
 * memory); a textbook's example (from memory) is beside the tests.
 */
export function sequentialPlan({ good, bad, alpha, beta }: SequentialAim): SequentialPlan {
  if (!(good > 0 && good < bad && bad < 1)) throw new RangeError('0 < good < bad < 1 does not hold.');
  if (!(alpha > 0 && beta > 0 && alpha + beta < 1))
    throw new RangeError('The risks lie above 0 and sum to less than 1.');
  const [ratio, other] = [Math.log(bad / good), Math.log((1 - good) / (1 - bad))];
  const step = ratio + other;
  const [lower, upper] = [Math.log((1 - alpha) / beta), Math.log((1 - beta) / alpha)];
  const mean = (share: number) => share * ratio - (1 - share) * other;
  const [acceptIntercept, slope] = [lower / step, other / step];
  return {
    slope,
    acceptIntercept,
    rejectIntercept: upper / step,
    firstAcceptance: Math.ceil(acceptIntercept / slope),
    expectedAtGood: (alpha * upper - (1 - alpha) * lower) / mean(good),
    expectedAtBad: ((1 - beta) * upper - beta * lower) / mean(bad),
  };
}

/** What the plan says after `found` defective ones among `sample`. Never throws. */
export function sequentialVerdict(
  plan: SequentialPlan,
  sample: number,
  found: number,
): 'accept' | 'do not accept' | 'go on' {
  if (found >= plan.slope * sample + plan.rejectIntercept) return 'do not accept';
  if (found <= plan.slope * sample - plan.acceptIntercept) return 'accept';
  return 'go on';
}

/** One row of a sequential plan: the most that accept and the least that do not; null = not yet possible. */
export interface SequentialRow {
  sample: number;
  acceptAt: number | null;
  rejectAt: number | null;
}

/** The rows of a plan from 1 up to `most` files. Never throws. */
export function sequentialRows(plan: SequentialPlan, most: number): SequentialRow[] {
  return Array.from({ length: most }, (_, at) => {
    const sample = at + 1;
    const accept = Math.floor(plan.slope * sample - plan.acceptIntercept);
    const reject = Math.ceil(plan.slope * sample + plan.rejectIntercept);
    return {
      sample,
      acceptAt: accept >= 0 ? accept : null,
      rejectAt: reject <= sample ? reject : null,
    };
  });
}
