import { expect, it } from 'vitest';
import { target } from './walk.ts';

it('goes from point to point and stops at the ends', () => {
  expect(target('ArrowRight', 0, 3)).toBe(1);
  expect(target('ArrowUp', 2, 3)).toBe(2);
  expect(target('ArrowLeft', 0, 3)).toBe(0);
  expect(target('ArrowDown', 2, 3)).toBe(1);
  expect(target('Home', 2, 3)).toBe(0);
  expect(target('End', 0, 3)).toBe(2);
});

it('leaves other keys to the page', () => {
  expect(target('Tab', 0, 3)).toBeNull();
  expect(target('ArrowRight', 0, 0)).toBeNull();
});
