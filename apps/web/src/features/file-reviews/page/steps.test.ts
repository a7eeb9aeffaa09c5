import { expect, it } from 'vitest';
import { nextOpen, progressOf } from './steps.ts';

const of = (...marks: (null | 'ok' | 'finding')[]) => marks.map((mark, i) => ({ step: `check:${i}`, mark }));

it('goes on to what has no mark, around the end, and else to the next', () => {
  expect(nextOpen(of('ok', null, null), 0)).toBe(1);
  expect(nextOpen(of(null, 'ok', 'ok'), 2)).toBe(0);
  expect(nextOpen(of('ok', 'ok', null), 0)).toBe(2);
  expect(nextOpen(of('ok', 'ok', 'ok'), 0)).toBe(1);
  expect(nextOpen(of('ok', 'ok', 'ok'), 2)).toBe(2);
  // The one being marked is not what comes next, though its mark is still on its way.
  expect(nextOpen(of('ok', null), 1)).toBe(1);
});

it('counts what was seen', () => {
  expect(progressOf(of('ok', null, 'finding'))).toEqual({ seen: 2, findings: 1, total: 3 });
});
