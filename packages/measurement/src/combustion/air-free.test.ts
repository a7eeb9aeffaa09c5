import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { airFreeCarbonMonoxide } from './air-free.ts';

describe('airFreeCarbonMonoxide', () => {
  // Computed by hand from CO × 20.9 / (20.9 − O2).
  it.each([
    [50, 9, 87.815126],
    [100, 10.45, 200],
    [100, 0, 100],
    [0, 9, 0],
    [36, 19.9, 752.4],
  ])('makes %s ppm at %s %% oxygen %s ppm', (measured, oxygen, expected) => {
    const found = airFreeCarbonMonoxide(measured, oxygen);
    expect(found.ok && found.value).toBeCloseTo(expected, 6);
  });

  it('refuses room air, and numbers that cannot be', () => {
    expect(airFreeCarbonMonoxide(50, 20)).toMatchObject({
      problem: {
        path: 'values.oxygen',
        code: 'too-diluted',
        message: expect.stringContaining('Oxygen is 20 %, nearly that of air (20.9 %)'),
      },
    });
    expect(airFreeCarbonMonoxide(50, 20)).toMatchObject({
      problem: { message: expect.stringContaining('Move the probe') },
    });
    expect(airFreeCarbonMonoxide(50, 100)).toMatchObject({ problem: { code: 'too-diluted' } });
    for (const bad of [-1, 100.1, NaN]) {
      expect(airFreeCarbonMonoxide(50, bad)).toMatchObject({
        problem: {
          path: 'values.oxygen',
          code: 'bad-oxygen',
          message: `Oxygen is ${bad} %; it must be between 0 and 20 %.`,
        },
      });
    }
    for (const bad of [-1, NaN, Infinity]) {
      expect(airFreeCarbonMonoxide(bad, 5)).toMatchObject({
        problem: {
          path: 'values.carbonMonoxide',
          code: 'bad-concentration',
          message: `Carbon monoxide is ${bad} ppm; it must be zero or more.`,
        },
      });
    }
  });

  it('is never below what was measured and grows with both', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 4000 }),
        fc.double({ min: 0, max: 19.8, noNaN: true }),
        (ppm, oxygen) => {
          const at = (co: number, o2: number) => {
            const found = airFreeCarbonMonoxide(co, o2);
            return found.ok ? found.value : NaN;
          };
          expect(at(ppm, oxygen)).toBeGreaterThanOrEqual(ppm);
          expect(at(ppm, oxygen + 0.1)).toBeGreaterThan(at(ppm, oxygen));
          expect(at(ppm + 1, oxygen)).toBeGreaterThan(at(ppm, oxygen));
        },
      ),
    );
  });
});
