import { expect, it } from 'vitest';
import { chanceWords } from './chance.ts';

it.each([
  [0, 'Less than one chance in 1,000'],
  [0.0228, 'About one chance in 44'],
  [0.125, 'About 13 chances in 100'],
  [0.5, 'About 50 chances in 100'],
  [1, 'All but certain'],
])('says %s in words', (chance, words) => expect(chanceWords(chance)).toBe(words));

it.each([null, undefined, Number.NaN, -0.1, 1.1])('says nothing of %s', (chance) => {
  expect(chanceWords(chance)).toBeNull();
});
