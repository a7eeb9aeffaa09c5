import { expect, test } from 'vitest';
import type { Figure } from '../figures.ts';
import { narrowFailures } from '../signals/narrow-failures.ts';
import { Random } from '../statistics/random.ts';
import { beginSorts, besideLimits, edge, usualOf } from './beside-limits.ts';

const figure = (raterId: string, n: number, value: number, reported: number): Figure => ({
  ...{ readingId: `${raterId}/${n}`, houseId: `${raterId}/${n}`, raterId, instrumentId: null },
  ...{ item: 'bath-exhaust', place: '1', at: n, value, reported, installerId: 'one' },
  ...{
    uncertainty: value * 0.02,
    limit: { value: 50, inside: 'above' },
    readAgain: false,
    plan: null,
    doubts: [],
  },
  shown: [{ field: 'flow', value, step: 1, setPoint: false }],
});

const sortsOf = (raters: readonly { raterId: string; figures: Figure[] }[]) => {
  const begun = beginSorts();
  for (const rater of raters) begun.add(rater);
  return begun.sorts();
};
const looked = (raters: readonly { raterId: string; figures: Figure[] }[]) =>
  narrowFailures(raters[0]!.figures, 'r0', sortsOf(raters));

/** Raters whose meters read 2 % apart, in houses around the limit; the first may write something else. */
function company(written: (value: number) => number) {
  const random = new Random(9);
  return Array.from({ length: 6 }, (_, i) => {
    const gain = 1 + (i - 2) / 50;
    const figures = Array.from({ length: 40 }, (_, n) => {
      const truth = random.normal(55, 5);
      const value = Math.round(truth * gain * random.normal(1, 0.01));
      return figure(`r${i}`, n, i === 0 ? written(value) : value, Math.round(truth * random.normal(1, 0.02)));
    });
    return { raterId: `r${i}`, figures };
  });
}

test('what passes begins half a step below a limit that must be reached, and ends half a step above one that must not be passed', () => {
  const [above] = besideLimits([figure('r', 0, 52, 52)]);
  expect(above).toMatchObject({ x: Math.log(52 / 50), reported: Math.log(52 / 50), step: 1 });
  expect(edge(above!, 0)).toBeCloseTo(Math.log(49.5 / 50), 12);
  // 4 % above 50 is 52, which 51.5 is read as.
  expect(edge(above!, Math.log(1.04))).toBeCloseTo(Math.log(51.5 / 50), 12);
  const [below] = besideLimits([
    { ...figure('r', 0, 52, 52), limit: { value: 60.4, inside: 'below' as const } },
  ]);
  expect(edge(below!, 0)).toBeCloseTo(-Math.log(60.5 / 60.4), 12);
});

test('chances are those of the others, moved to the rater’s own middle: his instrument is no sign', () => {
  const sorts = sortsOf(company((value) => value));
  const usual = usualOf('bath-exhaust/above/reported', 'r0', sorts)!;
  expect(usual.pool).toBe(200);
  const [row] = besideLimits([figure('r0', 99, 50, 50)]);
  // His meter reads 4 % low: where 50 were reported he mostly reads less.
  expect(usual.between(row!, -1, edge(row!, 0), 0)).toBeGreaterThan(0.85);
  expect(usual.between(row!, -5, 5, 0)).toBe(1);
});

test('missing narrow failures are told of; of somebody who measures nothing is', () => {
  const honest = looked(company((value) => value))!;
  expect(honest.p).toBeGreaterThan(0.01);
  const favoured = looked(company((value) => (value < 50 && value >= 46 ? 51 : value)))!;
  expect(favoured.p).toBeLessThan(1e-6);
  expect(favoured.sentence).toMatch(
    /^\d+ results fail by less than about \d+ % of their limit where [\d.]+ were to be expected, and \d+ pass/,
  );
  expect(favoured.houseIds.every((id) => id.startsWith('r0/'))).toBe(true);
});

test('what was read again during the visit counts as it was left', () => {
  const first = { ...figure('r', 0, 47, 48), readAgain: true };
  expect(besideLimits([first, figure('r', 0, 50, 48)]).map(({ x }) => x)).toEqual([0]);
});

test('with fewer than three others there is nothing to hold results against', () => {
  expect(looked(company((value) => value).slice(0, 3))).toBeNull();
});
