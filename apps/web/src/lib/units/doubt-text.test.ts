import { expect, it } from 'vitest';
import { doubtText } from './doubt-text.ts';

it.each([
  [2.6, 0, '3'],
  [0.29, 0, '0.3'],
  [0.00046, 3, '0.0005'],
  [0, 1, '0.0'],
])('%d beside a result with %d decimals', (value, decimals, text) => {
  expect(doubtText(value, decimals)).toBe(text);
});
