import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { describe, expect, it } from 'vitest';
import {
  countAtMost,
  countBounds,
  detectionSample,
  detectionSampleUnending,
  sequentialPlan,
  sequentialRows,
  sequentialVerdict,
  shareAtMost,
  shareBounds,
} from '../index.ts';
import { chanceOfAtMost, chanceOfNone } from './hypergeometric.ts';

describe('how many to look at', () => {
  // Computed independently (Python, scipy 1.x, hypergeometric distribution).
  const rates = [0.01, 0.02, 0.05, 0.1];
  const table = [
    ...[[20, [18, 18, 18, 14], [19, 19, 19, 16]] as const, [50, [45, 45, 27, 18], [48, 48, 31, 22]] as const],
    ...[
      [100, [90, 69, 37, 20], [95, 78, 45, 25]] as const,
      [500, [184, 102, 43, 22], [225, 129, 56, 28]] as const,
    ],
    ...[[5000, [224, 113, 45, 22], [290, 147, 59, 29]] as const],
  ];
  it.each(table)('of %i with 90 and 95 %% confidence', (population, ninety, ninetyFive) => {
    const samples = (confidence: number) =>
      rates.map((rate) => detectionSample({ population, rate, confidence }).sample);
    expect(samples(0.9)).toEqual(ninety);
    expect(samples(0.95)).toEqual(ninetyFive);
  });

  it('agrees with the table of Cannon and Roe, 95 %, 100 animals (from memory): 45, 25, 78, 95', () => {
    const of = (rate: number) => detectionSample({ population: 100, rate, confidence: 0.95 }).sample;
    expect([of(0.05), of(0.1), of(0.02), of(0.01)]).toEqual([45, 25, 78, 95]);
  });

  it('is the smallest that reaches the aim', () => {
    for (const population of [3, 17, 120, 999]) {
      const plan = detectionSample({ population, rate: 0.07, confidence: 0.9 });
      expect(plan.reached).toBeGreaterThanOrEqual(0.9 - 1e-9);
      expect(1 - chanceOfNone({ population, ...plan, sample: plan.sample - 1 })).toBeLessThan(0.9);
    }
  });

  it('of a population without end: 299, 59, 29, 14 (computed independently)', () => {
    expect([0.01, 0.05, 0.1, 0.2].map((rate) => detectionSampleUnending(rate, 0.95))).toEqual([
      ...[299, 59, 29, 14],
    ]);
  });

  it('refuses what makes no sense', () => {
    const aim = { population: 10, rate: 0.1, confidence: 0.9 };
    for (const change of [{ population: 0 }, { population: 1.5 }, { rate: 0 }, { confidence: 1 }])
      expect(() => detectionSample({ ...aim, ...change })).toThrow(RangeError);
    expect(() => detectionSampleUnending(1, 0.9)).toThrow(RangeError);
  });

  // Computed independently: N, D, n, chance of none.
  it.each([
    [7, 1, 1, 0.85714286],
    [7, 2, 1, 0.71428571],
    [7, 1, 3, 0.57142857],
    [20, 2, 5, 0.55263158],
    [50, 3, 8, 0.58571429],
    [50, 5, 8, 0.40149333],
    [90, 5, 18, 0.3183567],
    [100, 5, 18, 0.36241513],
    [100, 10, 20, 0.09511627],
  ])('finds none of %i with %i defective in %i looks', (population, defective, sample, chance) => {
    const lot = { population, defective, sample };
    expect(chanceOfNone(lot)).toBeCloseTo(chance, 8);
    expect(chanceOfAtMost(0, lot)).toBeCloseTo(chance, 8);
  });
});

describe('what a sample lets one say', () => {
  // Clopper–Pearson, 95 %, computed independently.
  it.each([
    [0, 5, 0, 0.52182],
    [0, 10, 0, 0.3085],
    [1, 10, 0.00253, 0.44502],
    [1, 20, 0.00127, 0.24873],
    [2, 50, 0.00488, 0.13714],
    [5, 100, 0.01643, 0.11283],
  ])('after %i of %i', (found, sample, low, high) => {
    const bounds = shareBounds(found, sample, 0.95);
    expect(bounds.low).toBeCloseTo(low, 5);
    expect(bounds.high).toBeCloseTo(high, 5);
  });

  it('one-sided for an all-clear: 1 − 0.05^(1/n)', () => {
    for (const n of [1, 18, 59, 300]) expect(shareAtMost(0, n, 0.95)).toBeCloseTo(1 - 0.05 ** (1 / n), 10);
    expect(shareAtMost(5, 5, 0.95)).toBe(1);
    expect(shareBounds(5, 5, 0.95).high).toBe(1);
  });

  // Computed independently (Python, scipy): N, n, found, confidence, largest count.
  it.each([
    [100, 20, 0, 0.95, 12],
    [100, 18, 0, 0.9, 10],
    [1000, 59, 0, 0.95, 48],
    [50, 8, 1, 0.95, 22],
    [7, 1, 0, 0.95, 6],
    [200, 32, 2, 0.975, 39],
  ])('in a finite population of %i, %i looked at', (population, sample, found, confidence, most) => {
    expect(countAtMost(population, sample, found, confidence)).toBe(most);
  });

  it('holds the truth at least as often as it says, for every population of 30', () => {
    const [population, sample, confidence] = [30, 9, 0.9];
    for (let defective = 0; defective <= population; defective++) {
      let [one, both] = [0, 0];
      for (let found = 0; found <= sample; found++) {
        const lot = { population, defective, sample };
        const chance = chanceOfAtMost(found, lot) - (found > 0 ? chanceOfAtMost(found - 1, lot) : 0);
        if (!(chance > 0)) continue;
        if (defective <= countAtMost(population, sample, found, confidence)) one += chance;
        const { low, high } = countBounds(population, sample, found, confidence);
        if (low <= defective && defective <= high) both += chance;
      }
      expect(one).toBeGreaterThanOrEqual(confidence - 1e-9);
      expect(both).toBeGreaterThanOrEqual(confidence - 1e-9);
    }
  });

  it('knows all when everything was looked at', () => {
    expect(countBounds(12, 12, 3, 0.95)).toEqual({ low: 3, high: 3 });
    expect(() => countAtMost(5, 6, 0, 0.9)).toThrow(RangeError);
    for (const [found, sample, confidence] of [
      [3, 2, 0.9],
      [0, 0, 0.9],
      [-1, 2, 0.9],
      [0, 2, 1],
    ] as const)
      expect(() => shareBounds(found, sample, confidence)).toThrow(RangeError);
  });
});

/** The true risks of a sequential plan, by going through every path of the count found. */
function trueRisk(
  plan: ReturnType<typeof sequentialPlan>,
  share: number,
): { accepted: number; mean: number } {
  let live = new Map([[0, 1]]);
  let [accepted, mean] = [0, 0];
  for (let n = 1; n <= 3000 && live.size > 0; n++) {
    const next = new Map<number, number>();
    for (const [found, chance] of live) {
      mean += chance;
      for (const [to, part] of [
        [found, chance * (1 - share)],
        [found + 1, chance * share],
      ] as const) {
        const verdict = sequentialVerdict(plan, n, to);
        if (verdict === 'accept') accepted += part;
        if (verdict === 'go on') next.set(to, (next.get(to) ?? 0) + part);
      }
    }
    live = next;
  }
  return { accepted, mean };
}

describe('a sequential plan', () => {
  it('has the lines −1.22 + 0.028 n and 1.57 + 0.028 n of a textbook’s example (from memory)', () => {
    const plan = sequentialPlan({ good: 0.01, bad: 0.06, alpha: 0.05, beta: 0.1 });
    expect(plan.slope).toBeCloseTo(0.0281, 4);
    expect(plan.acceptIntercept).toBeCloseTo(1.22, 2);
    expect(plan.rejectIntercept).toBeCloseTo(1.57, 2);
    expect(plan.firstAcceptance).toBe(44);
    const rows = sequentialRows(plan, 60);
    expect(rows[42]).toEqual({ sample: 43, acceptAt: null, rejectAt: 3 });
    expect(rows[43]).toEqual({ sample: 44, acceptAt: 0, rejectAt: 3 });
    expect(rows[0]!.rejectAt).toBeNull();
  });

  it.each([
    { good: 0.01, bad: 0.06, alpha: 0.05, beta: 0.1 },
    { good: 0.02, bad: 0.15, alpha: 0.05, beta: 0.05 },
    { good: 0.1, bad: 0.3, alpha: 0.1, beta: 0.1 },
  ])('keeps its risks, by every path: %o', { timeout: 60_000 }, (aim) => {
    const plan = sequentialPlan(aim);
    const [atGood, atBad] = [trueRisk(plan, aim.good), trueRisk(plan, aim.bad)];
    expect(1 - atGood.accepted + atBad.accepted).toBeLessThanOrEqual(aim.alpha + aim.beta);
    expect(1 - atGood.accepted).toBeLessThanOrEqual(aim.alpha / (1 - aim.beta));
    expect(atBad.accepted).toBeLessThanOrEqual(aim.beta / (1 - aim.alpha));
    // Wald's expectation leaves out what is passed over at the end: it comes out low, not high.
    expect(atGood.mean / plan.expectedAtGood).toBeGreaterThan(0.95);
    expect(atGood.mean / plan.expectedAtGood).toBeLessThan(1.35);
  });

  it('refuses an aim that is none', () => {
    const aim = { good: 0.01, bad: 0.06, alpha: 0.05, beta: 0.1 };
    for (const change of [{ good: 0 }, { bad: 0.01 }, { alpha: 0 }, { beta: 0.96 }])
      expect(() => sequentialPlan({ ...aim, ...change })).toThrow(RangeError);
  });
});

it('holds the binomial chances of acceptance that were computed independently', () => {
  const rows = [
    ...[[13, 0, 0.01, 0.87752] as const, [13, 0, 0.1, 0.25419] as const, [20, 0, 0.04, 0.442] as const],
    ...[[32, 2, 0.04, 0.86512] as const, [50, 3, 0.1, 0.25029] as const, [80, 5, 0.025, 0.98479] as const],
    ...[[200, 7, 0.015, 0.98874] as const, [200, 7, 0.04, 0.4501] as const],
  ];
  for (const [n, accept, share, chance] of rows) expect(binomialCdf(accept, n, share)).toBeCloseTo(chance, 5);
});
