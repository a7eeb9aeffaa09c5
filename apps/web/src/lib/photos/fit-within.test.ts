import { describe, expect, it } from 'vitest';
import { fitWithin } from './fit-within.ts';

describe('fitWithin', () => {
  it('leaves what is small enough', () => {
    expect(fitWithin(2500, 1200, 2500)).toEqual({ width: 2500, height: 1200 });
  });
  it('holds the longer side, whichever it is', () => {
    expect(fitWithin(5000, 3000, 2500)).toEqual({ width: 2500, height: 1500 });
    expect(fitWithin(3000, 5000, 2500)).toEqual({ width: 1500, height: 2500 });
  });
  it('never comes to nothing', () => {
    expect(fitWithin(100_000, 1, 2500)).toEqual({ width: 2500, height: 1 });
  });
});
