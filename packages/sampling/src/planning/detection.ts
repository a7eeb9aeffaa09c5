import { chanceOfNone } from './hypergeometric.ts';

/** What a sample must find: at least one defective file, where at least `rate` of the population is defective. */
export interface DetectionAim {
  population: number;
  /** share of defective ones, above 0 up to 1 */
  rate: number;
  /** wanted chance to find at least one, above 0 and below 1 */
  confidence: number;
}

/** The sample that reaches the aim, what it finds and what it may miss. */
export interface DetectionPlan {
  sample: number;
  /** defective ones in the population at that rate: rate · N, rounded up */
  defective: number;
  /** chance to find at least one of them with this sample */
  reached: number;
}

/** Defective ones that a rate stands for: the smallest number that is at least that rate. Never throws. */
export const defectiveAt = (rate: number, population: number): number =>
  Math.min(population, Math.max(1, Math.ceil(rate * population - 1e-9)));

/**
 * How many files must be looked at, so that at least one defective one is among them with the confidence wanted,
 * where D of N are defective (hypergeometric, without replacement): the smallest n with
 * C(N − D, n) / C(N, n) ≤ 1 − confidence. Throws RangeError for a population below 1 and for a rate or confidence
 * outside what is stated. Source: textbooks; for few defective ones in few files, values of the table of Cannon
 * and Roe (from memory) and values computed independently.
 */
export function detectionSample({ population, rate, confidence }: DetectionAim): DetectionPlan {
  if (!Number.isInteger(population) || population < 1)
    throw new RangeError('A population is a whole number from 1 on.');
  if (!(rate > 0 && rate <= 1)) throw new RangeError('A rate lies above 0 and up to 1.');
  if (!(confidence > 0 && confidence < 1)) throw new RangeError('A confidence lies between 0 and 1.');
  const defective = defectiveAt(rate, population);
  const missed = (sample: number) => chanceOfNone({ population, defective, sample });
  let [low, high] = [0, population];
  // A whisker of slack, so that an aim met exactly is not missed by the last bit.
  const allowed = 1 - confidence + 1e-12;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (missed(middle) <= allowed) high = middle;
    else low = middle;
  }
  return { sample: high, defective, reached: 1 - missed(high) };
}

/**
 * The same for a population without end: the smallest n with (1 − rate)^n ≤ 1 − confidence. Throws RangeError for a
 * rate or confidence that is not between 0 and 1. Source: binomial distribution; values computed independently.
 */
export function detectionSampleUnending(rate: number, confidence: number): number {
  if (!(rate > 0 && rate < 1) || !(confidence > 0 && confidence < 1))
    throw new RangeError('Rate and confidence lie between 0 and 1.');
  return Math.ceil(Math.log(1 - confidence) / Math.log(1 - rate) - 1e-12);
}
