import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { monteCarlo } from '../uncertainty/monte-carlo.ts';
import { convert } from '../units/convert.ts';
import { airDensity, airDensityAtAltitude, standardAirDensity } from './density.ts';
import { methodAirDensity } from './e779.ts';
import { atmosphereSpan, standardPressure } from './standard-atmosphere.ts';
import { saturationPressure } from './water-vapor.ts';

const fahrenheit = (celsius: number) => convert(celsius, 'degC', 'degF');
const feet = (metres: number) => convert(metres, 'm', 'ft');

function densityOf(found: ReturnType<typeof airDensity> | ReturnType<typeof methodAirDensity>): number {
  return found.ok ? found.value.density : NaN;
}

function pressureOf(altitude: number): number {
  const found = standardPressure(altitude);
  return found.ok ? found.value.pressure : NaN;
}

describe('standardPressure', () => {
  // ASHRAE Handbook Fundamentals 2017, chapter 1, as printed in the tests of an open psychrometric library (seen).
  it.each([
    [-500, 107478],
    [0, 101325],
    [500, 95461],
    [1000, 89875],
    [4000, 61640],
    [10000, 26436],
  ])('at %s m is %s Pa', (metres, pressure) => {
    expect(Math.abs(pressureOf(feet(metres)) - pressure)).toBeLessThan(0.6);
  });

  // The same source in psi, whose inch-pound formula starts from 14.696 psi: 0.02 % beside the metric one.
  it.each([
    [1000, 14.175],
    [3000, 13.173],
    [10000, 10.108],
  ])('at %s ft is %s psi to 0.02 %%', (altitude, psi) => {
    expect(Math.abs(pressureOf(altitude) / 6894.757 / psi - 1)).toBeLessThan(0.0002);
  });

  it('shows its working', () => {
    expect(standardPressure(5280)).toMatchObject({
      value: { step: { working: '101325 × (1 − 0.0065 × 1609.3 m / 288.15)^5.2559', unit: 'Pa' } },
    });
  });

  it('refuses heights beyond the lowest layer of the atmosphere and what is no number', () => {
    expect(standardPressure(NaN)).toMatchObject({
      problem: { path: 'altitude', code: 'not-a-number', message: 'The altitude is not a number.' },
    });
    for (const altitude of [atmosphereSpan.low - 1, atmosphereSpan.high + 1]) {
      expect(standardPressure(altitude)).toMatchObject({
        problem: {
          path: 'altitude',
          code: 'altitude-out-of-range',
          message: `The altitude is ${altitude} ft; the formula holds from -6561 to 36089 ft.`,
        },
      });
    }
    expect(standardPressure(atmosphereSpan.low).ok && standardPressure(atmosphereSpan.high).ok).toBe(true);
  });

  it('falls with the height', () => {
    const height = fc.double({ min: atmosphereSpan.low, max: atmosphereSpan.high - 1, noNaN: true });
    fc.assert(
      fc.property(height, (altitude) => {
        expect(pressureOf(altitude + 1)).toBeLessThan(pressureOf(altitude));
      }),
    );
  });
});

describe('saturationPressure', () => {
  // ASHRAE Handbook Fundamentals 2017, chapter 1, equations 5 and 6, as run in an open psychrometric library.
  it.each([
    [-60, 1.0816731664634545],
    [-20, 103.26037858050408],
    [-5, 401.7641224788012],
    [5, 872.4866542640299],
    [25, 3169.2164701436277],
    [50, 12349.856466723748],
    [100, 101418.71682799235],
    [150, 476197.8759422016],
  ])('at %s °C is %s Pa', (celsius, pressure) => {
    expect(saturationPressure(celsius) / pressure).toBeCloseTo(1, 12);
  });

  it('meets at the triple point and knows nothing outside its span', () => {
    expect(saturationPressure(0.0100001) / saturationPressure(0.01)).toBeCloseTo(1, 4);
    expect([saturationPressure(-100.1), saturationPressure(200.1), saturationPressure(NaN)]).toEqual([
      NaN,
      NaN,
      NaN,
    ]);
    expect(saturationPressure(-100)).toBeGreaterThan(0);
    expect(saturationPressure(200)).toBeGreaterThan(0);
  });
});

describe('airDensity', () => {
  it('of dry air at 25 °C is 1 / 0.8443, at 77 °F and 14.696 psi 1 / 13.5251 lb/ft³ to 0.05 % (ASHRAE 2017, seen)', () => {
    // The printed volumes are of real air; the ideal gas lies 0.04 % beside them.
    const share = densityOf(airDensity({ temperature: 77, pressure: 101325 })) * 0.8443;
    expect(Math.abs(share - 1)).toBeLessThan(0.0005);
    const pounds = convert(
      densityOf(airDensity({ temperature: 77, pressure: 14.696 * 6894.757 })),
      'kg/m3',
      'lb/ft3',
    );
    expect(Math.abs(pounds * 13.5251 - 1)).toBeLessThan(0.0005);
  });

  // The vapour that 0.02 kg of water in a kilogram of dry air makes at 95,461 Pa, as a share of saturation at 30 °C.
  it('of moist air at 30 °C with 0.02 kg/kg at 95,461 Pa is 1.08412 (the same library’s tests, seen)', () => {
    const vapor = (0.02 / (0.621945 + 0.02)) * 95461;
    const relativeHumidity = (100 * vapor) / saturationPressure(30);
    const found = airDensity({ temperature: 86, pressure: 95461, relativeHumidity });
    expect(densityOf(found)).toBeCloseTo(1.08411986348219, 6);
  });

  // The same library, run once with these inputs.
  it.each([
    [30, 50, 95461, 1.087817575047638],
    [-10, 80, 101325, 1.340388653912225],
    [0, 60, 89875, 1.1445159453891602],
    [50, 20, 101325, 1.0822961430442934],
    [21, 40, 84000, 0.9904114544030695],
  ])('at %s °C, %s %% and %s Pa is %s', (celsius, relativeHumidity, pressure, density) => {
    const found = airDensity({ temperature: fahrenheit(celsius), pressure, relativeHumidity });
    expect(densityOf(found)).toBeCloseTo(density, 6);
  });

  it('shows its working, with the vapour only when there is some', () => {
    expect(airDensity({ temperature: 68, pressure: 101325 })).toMatchObject({
      value: {
        pressure: 101325,
        steps: [{ label: 'Air density', working: '101325 / (287.042 × 293.15 K)', unit: 'kg/m3' }],
      },
    });
    const moist = airDensity({ temperature: 68, pressure: 101325, relativeHumidity: 50 });
    expect(moist.ok && moist.value.steps).toMatchObject([
      { label: 'Pressure of water vapor', working: '50 % of saturation at 20 °C', unit: 'Pa' },
      { working: '(101325 − 1169 × (1 − 1 / 1.6079)) / (287.042 × 293.15 K)' },
    ]);
    const last = moist.ok ? moist.value.steps.at(-1) : undefined;
    expect(last?.value).toBe(densityOf(moist));
  });

  it.each([
    [{ temperature: NaN, pressure: 101325 }, 'temperature', 'not-a-number', 'is not a number'],
    [{ temperature: -149, pressure: 101325 }, 'temperature', 'temperature-out-of-range', '-148 and 392 °F'],
    [{ temperature: 393, pressure: 101325 }, 'temperature', 'temperature-out-of-range', 'is 393 °F'],
    [{ temperature: 68, pressure: 19999 }, 'pressure', 'pressure-out-of-range', '20000 and 120000 Pa'],
    [{ temperature: 68, pressure: 29.92 }, 'pressure', 'pressure-out-of-range', 'is 29.92 Pa'],
    [
      { temperature: 68, pressure: 101325, relativeHumidity: 101 },
      'relativeHumidity',
      'humidity-out-of-range',
      '0 and 100 %',
    ],
    [
      { temperature: 300, pressure: 101325, relativeHumidity: 90 },
      'relativeHumidity',
      'humidity-out-of-range',
      'cannot hold',
    ],
  ])('refuses %o', (air, path, code, words) => {
    expect(airDensity(air)).toMatchObject({
      problem: { path, code, message: expect.stringContaining(words) },
    });
  });

  it('falls with warmth and humidity and grows with the pressure', () => {
    const of = (temperature: number, pressure: number, relativeHumidity: number) =>
      densityOf(airDensity({ temperature, pressure, relativeHumidity }));
    const parts = [
      fc.double({ min: -20, max: 110, noNaN: true }),
      fc.double({ min: 60000, max: 110000, noNaN: true }),
      fc.double({ min: 1, max: 98, noNaN: true }),
    ] as const;
    fc.assert(
      fc.property(...parts, (t, p, rh) => {
        const here = of(t, p, rh);
        expect(of(t + 1, p, rh)).toBeLessThan(here);
        expect(of(t, p + 100, rh)).toBeGreaterThan(here);
        expect(of(t, p, rh + 1)).toBeLessThan(here);
      }),
    );
  });
});

describe('the uncertainty of a density', () => {
  const air = { temperature: 86, pressure: 95461, relativeHumidity: 60 };
  const stated = { temperature: 2, pressure: 300, relativeHumidity: 5 };

  it('is that of a simulation', () => {
    const found = airDensity(air, stated);
    const drawn = monteCarlo(
      ([temperature, pressure, relativeHumidity]) =>
        densityOf(
          airDensity({
            temperature: temperature!,
            pressure: pressure!,
            relativeHumidity: relativeHumidity!,
          }),
        ),
      [
        { value: 86, u: 2 },
        { value: 95461, u: 300 },
        { value: 60, u: 5 },
      ],
      3,
      50_000,
    );
    const ratio =
      drawn.ok && found.ok ? drawn.value.standardUncertainty / (found.value.standardUncertainty ?? NaN) : NaN;
    expect(Math.abs(ratio - 1)).toBeLessThan(0.01);
    expect(found.ok && found.value.coverageFactor).toBe(2);
  });

  it('of dry air is that of thermometer and barometer, by the gas law', () => {
    const found = airDensity({ temperature: 68, pressure: 101325 }, { temperature: 1.8, pressure: 101.325 });
    const expected = 1.20415188 * Math.hypot(1 / 293.15, 0.001);
    expect(found.ok && found.value.standardUncertainty).toBeCloseTo(expected, 8);
    const high = airDensityAtAltitude(68, 0, 0, { temperature: 1.8, pressure: 101.325 });
    expect(high.ok && high.value.standardUncertainty).toBeCloseTo(expected, 8);
  });

  it('is not known without both, and refused below zero', () => {
    for (const part of [{}, { temperature: 1 }, { pressure: 100 }])
      expect(airDensity(air, part)).toMatchObject({ value: { standardUncertainty: null } });
    expect(airDensity(air, { temperature: -1 })).toMatchObject({ problem: { code: 'bad-uncertainty' } });
  });
});

describe('airDensityAtAltitude', () => {
  it('takes the barometer from the standard atmosphere', () => {
    const found = airDensityAtAltitude(68, 5280, 40);
    expect(found.ok && found.value.steps.map(({ label }) => label)).toEqual([
      'Barometric pressure of the standard atmosphere',
      'Pressure of water vapor',
      'Air density',
    ]);
    expect(densityOf(airDensityAtAltitude(68, 0))).toBeCloseTo(standardAirDensity, 3);
  });

  it('passes on what either refuses', () => {
    expect(airDensityAtAltitude(68, 40000)).toMatchObject({ problem: { code: 'altitude-out-of-range' } });
    expect(airDensityAtAltitude(500, 0)).toMatchObject({ problem: { code: 'temperature-out-of-range' } });
  });
});

describe('methodAirDensity', () => {
  // ASTM E779-10, appendix X1, from memory; computed independently from the remembered formulas.
  it.each([
    [20, 0, 1.2041],
    [0, 0, 1.29231],
    [-10, 0, 1.34145],
    [30, 0, 1.16436],
    [20, 1500, 1.00791],
    [-5, 1600, 1.08871],
    [21, 1600, 0.99243],
  ])('SI: %s °C at %s m is %s kg/m³', (celsius, metres, density) => {
    expect(densityOf(methodAirDensity(fahrenheit(celsius), feet(metres), 'SI'))).toBeCloseTo(density, 5);
  });

  it.each([
    [68, 0, 0.07517],
    [32, 0, 0.08067],
    [0, 0, 0.086282],
    [70, 5280, 0.061875],
    [20, 5280, 0.06832],
  ])('IP: %s °F at %s ft is %s lb/ft³', (temperature, altitude, pounds) => {
    const density = densityOf(methodAirDensity(temperature, altitude, 'IP'));
    expect(convert(density, 'kg/m3', 'lb/ft3')).toBeCloseTo(pounds, 6);
  });

  // The same vectors as the pair of factors by which a fan's flow is taken through the envelope.
  it('gives the density ratios of a house at 21 °C with frost outside, and at 70 °F with 20 °F outside', () => {
    const si = (celsius: number) => densityOf(methodAirDensity(fahrenheit(celsius), 0, 'SI'));
    const ip = (temperature: number) => densityOf(methodAirDensity(temperature, 0, 'IP'));
    expect(si(21) / si(0)).toBeCloseTo(0.928571, 6);
    expect(si(0) / si(21)).toBeCloseTo(1.076923, 6);
    expect(ip(70) / ip(20)).toBeCloseTo(0.90566, 6);
    expect(Math.sqrt(ip(70) / ip(20))).toBeCloseTo(0.951662, 5);
  });

  it('names the form in its working; the two forms differ by less than 0.1 %', () => {
    expect(methodAirDensity(68, 5280, 'SI')).toMatchObject({
      value: { step: { label: 'Air density (E779, SI form)', working: expect.stringContaining('1609.3 m') } },
    });
    expect(methodAirDensity(68, 5280, 'IP')).toMatchObject({
      value: { step: { label: 'Air density (E779, IP form)', working: expect.stringContaining('5280 ft') } },
    });
    const parts = [
      fc.double({ min: -20, max: 110, noNaN: true }),
      fc.double({ min: -500, max: 9000, noNaN: true }),
    ] as const;
    fc.assert(
      fc.property(...parts, (t, e) => {
        const ratio = densityOf(methodAirDensity(t, e, 'SI')) / densityOf(methodAirDensity(t, e, 'IP'));
        expect(Math.abs(ratio - 1)).toBeLessThan(0.001);
        const physics = densityOf(airDensityAtAltitude(t, e));
        expect(Math.abs(densityOf(methodAirDensity(t, e, 'SI')) / physics - 1)).toBeLessThan(0.008);
      }),
    );
  });

  it('refuses what lies outside its spans', () => {
    expect(methodAirDensity(NaN, 0, 'SI')).toMatchObject({ problem: { code: 'temperature-out-of-range' } });
    expect(methodAirDensity(68, NaN, 'SI')).toMatchObject({ problem: { code: 'altitude-out-of-range' } });
    expect(methodAirDensity(68, 40000, 'IP')).toMatchObject({
      problem: { path: 'altitude', message: expect.stringContaining('-6561 and 36089 ft') },
    });
    expect(methodAirDensity(393, 0, 'IP')).toMatchObject({
      problem: { path: 'temperature', message: expect.stringContaining('-148 and 392 °F') },
    });
  });
});
