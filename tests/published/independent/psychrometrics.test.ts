import { airDensity, convert, standardPressure } from '@countercheck/measurement';
import fc from 'fast-check';
import psychrolib from 'psychrolib';
import { beforeAll, describe, expect, it } from 'vitest';
import { figures } from '../run/figures.ts';

const runs = { numRuns: 5000, seed: 25 };
const celsius = fc.double({ min: -40, max: 55, noNaN: true });
const pascals = fc.double({ min: 55_000, max: 108_000, noNaN: true });

function density(air: Parameters<typeof airDensity>[0]): number {
  return Number(figures(airDensity(air))['density']);
}

/** How far a figure is from the library's, as a share of it. */
function apart(ours: number, theirs: number): number {
  return Math.abs(ours - theirs) / Math.abs(theirs);
}

// psychrolib 1.1.1: the ASHRAE handbook's formulas, written by others.
describe('air beside an independent psychrometric library', () => {
  beforeAll(() => psychrolib.SetUnitSystem(psychrolib.SI));

  it('agrees on the standard atmosphere to four digits from −500 to 5,000 m', () => {
    fc.assert(
      fc.property(fc.double({ min: -500, max: 5000, noNaN: true }), (metres) => {
        const ours = Number(figures(standardPressure(convert(metres, 'm', 'ft')))['pressure']);
        expect(apart(ours, psychrolib.GetStandardAtmPressure(metres))).toBeLessThan(5e-5);
      }),
      runs,
    );
  });

  it('agrees on dry air to seven digits', () => {
    fc.assert(
      fc.property(celsius, pascals, (t, pressure) => {
        const ours = density({ temperature: convert(t, 'degC', 'degF'), pressure });
        expect(apart(ours, psychrolib.GetDryAirDensity(t, pressure))).toBeLessThan(5e-8);
      }),
      runs,
    );
  });

  it('agrees on moist air to six digits', () => {
    fc.assert(
      fc.property(celsius, pascals, fc.double({ min: 0, max: 1, noNaN: true }), (t, pressure, humidity) => {
        const temperature = convert(t, 'degC', 'degF');
        const ours = density({ temperature, pressure, relativeHumidity: 100 * humidity });
        const ratio = psychrolib.GetHumRatioFromRelHum(t, humidity, pressure);
        expect(apart(ours, psychrolib.GetMoistAirDensity(t, ratio, pressure))).toBeLessThan(5e-7);
      }),
      runs,
    );
  });
});
