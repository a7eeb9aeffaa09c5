import { describe, expect, test } from 'vitest';
import { findingsAt, levelOf, look } from '../look.ts';
import { company } from '../simulation/company.ts';
import { falseAlarms, kindKeys, power, share } from '../simulation/study.ts';
import { kinds } from '../simulation/kinds.ts';
import { atLeast } from './repeats.ts';

test('the tail of events with chances of their own is that of the binomial distribution when they are the same', () => {
  expect(atLeast(2, [0.5, 0.5, 0.5])).toBeCloseTo(0.5, 12);
  expect(atLeast(0, [0.2])).toBeCloseTo(1, 12);
  expect(atLeast(2, [0.1, 0.2])).toBeCloseTo(0.02, 12);
});

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
  const found = kindKeys.filter((kind) => !kinds[kind]!.heldOut);
  test.each(found)('%s is found within 30 houses', { timeout: 60_000 }, (kind) => {
    expect(power(kind, 5, 777).found.found).toBeGreaterThanOrEqual(4);
  });
});

test(
  'a finding names houses of the rater, in one sentence, and no conclusion on a person',
  { timeout: 60_000 },
  () => {
    const raters = company(5, 8, 30, kinds['copies']);
    const [finding] = findingsAt(levelOf(12), look(raters));
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
  expect(findingsAt(levelOf(12), judged)).toEqual([]);
});
