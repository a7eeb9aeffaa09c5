import { describe, expect, test } from 'vitest';
import type { Photo } from '../figures.ts';
import { findingsAt, levelOf, look } from '../look.ts';
import { company } from '../simulation/company.ts';
import { falseAlarms, kindKeys, power, share } from '../simulation/study.ts';
import { kinds } from '../simulation/kinds.ts';
import { photos } from './photos.ts';

test('an interval of a share by Wilson: 9 of 10 gives 0.596 to 0.982 (from memory)', () => {
  const { low, high } = share(9, 10);
  expect(low).toBeCloseTo(0.596, 3);
  expect(high).toBeCloseTo(0.982, 3);
});

test('honest raters are let be', { timeout: 60_000 }, () => {
  const { alarms, raters, companies } = falseAlarms(2, 4242, 10, 60);
  expect(raters * companies).toBe(20);
  expect(alarms).toBeLessThanOrEqual(1);
});

describe('each kind of rater who does not measure', () => {
  const found = [...kindKeys.filter((kind) => kinds[kind]!.blind === 'no'), 'favours-near-limit'];
  test.each(found)('%s is found within 30 houses', { timeout: 60_000 }, (kind) => {
    expect(power(kind, 5, 777).found.found).toBeGreaterThanOrEqual(4);
  });
});

test(
  'a finding names houses of the rater, in one sentence, and no conclusion on a person',
  { timeout: 60_000 },
  () => {
    const raters = company(5, 8, 30, { first: kinds['copies'] });
    const [finding] = findingsAt(levelOf(8, 12), look(raters));
    expect(finding).toMatchObject({ signal: 'agreement', raterId: 'rater-0' });
    expect(finding!.houseIds.length).toBeGreaterThan(5);
    expect(finding!.houseIds.every((id) => id.startsWith('rater-0/'))).toBe(true);
    expect(finding!.sentence).toMatch(
      /^\d+ of \d+ readings lie within 1 % of what the installer reported; .+\.$/,
    );
  },
);

test('with too little to go by there is nothing to say', () => {
  const judged = look(company(6, 3, 1));
  // Eleven readings say something about their instruments already, and about nothing else.
  expect(judged.every(({ signal }) => signal === 'instrument')).toBe(true);
  expect(findingsAt(levelOf(3, 12), judged)).toEqual([]);
});

test('a photo that stands in an earlier house of another rater is told of, and not to whom it belonged', () => {
  const [mine, theirs] = company(7, 2, 6).map((year) => year.photos) as [Photo[], Photo[]];
  const other = { houseId: theirs[0]!.houseId, raterId: 'rater-1' };
  const taken = mine
    .filter((_, i) => i % 3 === 0)
    .map(({ id }) => [id, [{ ...other, earlier: true }]] as const);
  const outcome = photos(mine, new Map(taken));
  expect(outcome.p).toBeLessThan(0.001);
  expect(outcome.sentence).toMatch(
    /^6 of 18 photos, in 6 of 6 houses.+: 6 show the same picture as an earlier one of another house, 6 of them as one of another rater, \d+ carry/,
  );
  expect(outcome.evidence.rows[0]).toEqual([mine[0]!.houseId, other.houseId, other.raterId]);
  const given = taken.map(([id, [where]]) => [id, [{ ...where, earlier: false }]] as const);
  expect(photos(mine, new Map(given))).toEqual(photos(mine, new Map()));
});
