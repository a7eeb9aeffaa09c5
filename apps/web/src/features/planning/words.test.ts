import { expect, test } from 'vitest';
import { choiceWords, goodWords, speedWords, travelWords } from './words.ts';

test('a speed is in the unit of whoever reads it', () => {
  expect(speedWords(40, 'us')).toBe('24.9 mph');
  expect(speedWords(40, 'si')).toBe('40 km/h');
  const travel = { circuity: 1.3, speed: 40, extraMinutes: 3, service: false, trouble: null };
  expect(travelWords(travel, 'us')).toBe(
    'From coordinates: straight lines times 1.3, at 24.9 mph, and 3 min a drive',
  );
  const late = { ...travel, trouble: 'it did not answer within 10 s.' };
  expect(travelWords(late, 'si')).toMatch(
    /^The routing service could not be used: it did not answer.* 40 km\/h/,
  );
  expect(travelWords({ ...travel, service: true }, 'us')).toBe('From the routing service');
});

test('why a rater goes is said beside the next best one', () => {
  const words = (able: number, more?: number) =>
    choiceWords({ able, instead: more === undefined ? null : { rater: 'Ann', more } });
  expect(words(1)).toBe('Only this rater can do it');
  expect(words(2)).toBe('The other rater who could do it has no room');
  expect(words(4)).toBe('None of the 3 others who could do it has room');
  expect(words(4, 71.6)).toBe('Ann would cost 1 h 12 min more');
  expect(words(4, 0.4)).toBe('Ann would do as well');
});

test('a bound that is far below is said to be weak, and one that is near says how near', () => {
  const of = (cost: number, bound: number | null, proved = false) => goodWords({ cost, bound, proved });
  expect(of(1490, 1490, true)).toBe('No plan costs less, by its weights');
  expect(of(1000, null)).toBe('The best that was found in the time');
  expect(of(1050, 1000)).toMatch(
    /costs 1,050; no plan costs less than 1,000\. It is at most 50 \(5\.0 %\) above the cheapest\.$/,
  );
  expect(of(12_800, 1490)).toMatch(/no plan costs less than 1,490\. That limit is a weak one.*is not known/);
  expect(of(12_800, 0)).toMatch(/weak/);
});
