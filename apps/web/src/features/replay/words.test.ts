import { expect, it } from 'vitest';
import { reinspectionWords, signed } from './words.ts';

it.each([
  [{ more: 0, fewer: 0 }, 'As many reinspections as there were, at the same houses.'],
  [
    { more: 2, fewer: 2 },
    'As many reinspections as there were: 2 houses more and 2 houses fewer would need one.',
  ],
  [{ more: 1, fewer: 0 }, '1 reinspection more: 1 house more and 0 houses fewer would need one.'],
  [
    { more: 10, fewer: 1510 },
    '1,500 reinspections fewer: 10 houses more and 1,510 houses fewer would need one.',
  ],
])('answers the question of money for %o', (result, words) => {
  expect(reinspectionWords(result)).toBe(words);
});

it('gives a difference its sign', () => {
  expect([3, 0, -1200].map(signed)).toEqual(['+3', '0', '−1,200']);
});
