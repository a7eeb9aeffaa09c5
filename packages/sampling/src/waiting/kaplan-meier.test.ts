import { expect, it } from 'vitest';
import { kaplanMeier, waitingQuantile, type WaitingStep } from './kaplan-meier.ts';

/**
 * Weeks in remission of 21 patients under 6-mercaptopurine, the example most textbooks use (Freireich and others,
 * Blood 21, 1963); the figures of the curve and of Greenwood's standard errors are from memory.
 */
const remissions: WaitingStep[] = [
  { time: 6, ended: 3, censored: 1 },
  { time: 7, ended: 1, censored: 0 },
  { time: 9, ended: 0, censored: 1 },
  { time: 10, ended: 1, censored: 1 },
  { time: 11, ended: 0, censored: 1 },
  { time: 13, ended: 1, censored: 0 },
  { time: 16, ended: 1, censored: 0 },
  { time: 17, ended: 0, censored: 1 },
  { time: 19, ended: 0, censored: 1 },
  { time: 20, ended: 0, censored: 1 },
  { time: 22, ended: 1, censored: 0 },
  { time: 23, ended: 1, censored: 0 },
  { time: 25, ended: 0, censored: 1 },
  { time: 32, ended: 0, censored: 2 },
  { time: 34, ended: 0, censored: 1 },
  { time: 35, ended: 0, censored: 1 },
];

it('gives the curve of the remissions', () => {
  const curve = kaplanMeier(remissions);
  const at = (time: number) => curve.find((step) => step.time === time)!;
  const known = [
    [6, 21, 0.857],
    [7, 17, 0.807],
    [10, 15, 0.753],
    [13, 12, 0.69],
    [16, 11, 0.627],
    [22, 7, 0.538],
    [23, 6, 0.448],
  ] as const;
  for (const [time, atRisk, share] of known) {
    expect(at(time).atRisk).toBe(atRisk);
    expect(at(time).waiting).toBeCloseTo(share, 3);
  }
  expect(at(35).waiting).toBe(at(23).waiting);
  expect(waitingQuantile(curve, 0.5)).toBe(23);
  expect(waitingQuantile(curve, 0.25)).toBe(13);
  expect(waitingQuantile(curve, 0.75)).toBeNull();
});

it('gives intervals that hold the estimate and stay between 0 and 1', () => {
  for (const { waiting, low, high } of kaplanMeier(remissions)) {
    expect(low).toBeLessThanOrEqual(waiting);
    expect(high).toBeGreaterThanOrEqual(waiting);
    expect(low).toBeGreaterThan(0);
    expect(high).toBeLessThan(1);
  }
  // Worked out by hand at 6 weeks: S = 18/21, Greenwood's sum 3 / (21 · 18).
  const [first] = kaplanMeier(remissions);
  const spread = (1.959963984540054 * Math.sqrt(3 / (21 * 18))) / Math.log(6 / 7);
  expect(first!.low).toBeCloseTo(Math.exp(Math.log(6 / 7) * Math.exp(-spread)), 12);
  expect(first!.high).toBeCloseTo(Math.exp(Math.log(6 / 7) * Math.exp(spread)), 12);
});

it('is the plain share where nothing is censored', () => {
  const curve = kaplanMeier([1, 2, 3, 4].map((time) => ({ time, ended: 1, censored: 0 })));
  expect(curve.map(({ waiting }) => waiting)).toEqual([0.75, 0.5, 0.25, 0]);
  expect(waitingQuantile(curve, 0.5)).toBe(2);
  expect(curve.at(-1)).toMatchObject({ low: 0, high: 0 });
});

it('knows no curve of nothing, and refuses what is none', () => {
  expect(kaplanMeier([])).toEqual([]);
  expect(waitingQuantile([], 0.5)).toBeNull();
  const one = { time: 1, ended: 1, censored: 0 };
  expect(() => kaplanMeier([one, one])).toThrow(RangeError);
  expect(() => kaplanMeier([{ ...one, ended: -1 }])).toThrow(RangeError);
  expect(() => waitingQuantile([], 1)).toThrow(RangeError);
});
