import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromHalfWidth } from './distributions.ts';
import { type Propagated, propagate, type UncertainInput } from './propagate.ts';

function of(...given: Parameters<typeof propagate>): Propagated {
  const found = propagate(...given);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

describe('the gauge block of GUM H.1', () => {
  // Inputs and results seen in github:MSLNZ/GTC, docs/API/GUM_H1.rst: 50 000 838(32) nm; parts 25, 16.599, 6.7,
  // 5.8, 3.9, 2.88679, 0, 0, 0; 16 degrees of freedom in github:sandialabs/suncal, test_examples.py.
  const block: UncertainInput[] = [
    { label: 'standard', value: 50000623, u: 25, df: 18 },
    { label: 'difference', value: 215, u: 5.8, df: 24 },
    { label: 'comparator at random', value: 0, u: 3.9, df: 5 },
    { label: 'comparator always', value: 0, u: 6.7, df: 8 },
    { label: 'expansion', value: 11.5e-6, u: fromHalfWidth(2e-6, 'rectangular') },
    { label: 'expansions apart', value: 0, u: fromHalfWidth(1e-6, 'rectangular'), df: 50 },
    { label: 'temperatures apart', value: 0, u: fromHalfWidth(0.05, 'rectangular'), df: 2 },
    { label: 'temperature', value: -0.1, u: 0.2 },
    { label: 'temperature swinging', value: 0, u: fromHalfWidth(0.5, 'arcsine') },
  ];
  const length = ([
    ls = 0,
    d0 = 0,
    d1 = 0,
    d2 = 0,
    a = 0,
    da = 0,
    dt = 0,
    t = 0,
    swing = 0,
  ]: readonly number[]) => ls + d0 + d1 + d2 - ls * (da * (t + swing) + a * dt);

  it('has the published budget', () => {
    const found = of(length, block);
    expect(found.value).toBeCloseTo(50000838, 6);
    expect(Math.abs(found.standardUncertainty - 32)).toBeLessThan(0.4);
    const parts = [25, 5.8, 3.9, 6.7, 0, 2.88679, 16.599, 0, 0];
    found.budget.forEach(({ contribution }, i) => expect(contribution).toBeCloseTo(parts[i]!, 3));
    expect(Math.floor(found.degreesOfFreedom)).toBe(16);
    expect(found.coverageFactor).toBeCloseTo(2.119905, 6);
    expect(found.budget.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  // Seen in test_examples.py: the difference alone has 9.7 nm with 25.6 degrees of freedom.
  it('combines its comparator as published', () => {
    const found = of(([a = 0, b = 0, c = 0]) => a + b + c, block.slice(1, 4));
    expect(found.standardUncertainty).toBeCloseTo(9.7, 1);
    expect(Math.abs(found.degreesOfFreedom - 25.6)).toBeLessThan(0.2);
  });
});

describe('resistance and reactance of GUM H.2', () => {
  // Seen in github:MSLNZ/GTC, docs/API/GUM_H2.rst: 127.732(70), 219.85(30), 254.26(24) ohm from rounded inputs;
  // 0.071, 0.295, 0.236 from the readings in github:sandialabs/suncal, test_examples.py.
  const rounded = [
    { value: 4.999, u: 3.2e-3 },
    { value: 19.661e-3, u: 9.5e-6 },
    { value: 1.04446, u: 7.5e-4 },
  ];
  const roundedCorrelation = [
    [1, -0.36, 0.86],
    [-0.36, 1, -0.65],
    [0.86, -0.65, 1],
  ];
  const resistance = ([v = 0, i = 0, phase = 0]: readonly number[]) => (v / i) * Math.cos(phase);
  const reactance = ([v = 0, i = 0, phase = 0]: readonly number[]) => (v / i) * Math.sin(phase);
  const impedance = ([v = 0, i = 0]: readonly number[]) => v / i;

  it.each([
    ['R', resistance, 127.732, 0.07, 0.071],
    ['X', reactance, 219.847, 0.3, 0.295],
    ['Z', impedance, 254.26, 0.24, 0.236],
  ])('%s', (_name, fn, value, fromRounded, fromReadings) => {
    const found = of(fn, rounded, roundedCorrelation);
    expect(Math.abs(found.value - value)).toBeLessThan(0.003);
    expect(Math.abs(found.standardUncertainty - fromRounded)).toBeLessThan(0.005);
    const { inputs, correlation } = ofReadings();
    const again = of(fn, inputs, correlation);
    expect(Math.abs(again.value - value)).toBeLessThan(0.001);
    expect(Math.abs(again.standardUncertainty - fromReadings)).toBeLessThan(0.001);
    expect(again.degreesOfFreedom).toBe(4);
  });

  // Readings: test_GUMH2.csv of the same repository (seen).
  function ofReadings() {
    const columns = [
      [5.007, 4.994, 5.005, 4.99, 4.999],
      [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3],
      [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
    ];
    const mean = (column: number[]) => column.reduce((sum, x) => sum + x, 0) / column.length;
    const covariance = (a: number[], b: number[]) =>
      a.reduce((sum, x, i) => sum + (x - mean(a)) * (b[i]! - mean(b)), 0) / 20;
    return {
      inputs: columns.map((column) => ({
        value: mean(column),
        u: Math.sqrt(covariance(column, column)),
        df: 4,
      })),
      correlation: columns.map((a, i) =>
        columns.map((b, j) => {
          const [first, second] = i < j ? [a, b] : [b, a];
          const r = covariance(first, second) / Math.sqrt(covariance(a, a) * covariance(b, b));
          return i === j ? 1 : r;
        }),
      ),
    };
  }
});

describe('published examples with independent quantities', () => {
  // EURACHEM/CITAC A1, seen in github:MSLNZ/GTC, docs/API/CITAC_A1.rst: 1002.7 mg/L, u 0.835199.
  it('a calibration standard', () => {
    const found = of(
      ([m = 0, p = 0, flask = 0, fill = 0, warm = 0]) => (1000 * m * p) / (flask + fill + warm),
      [
        { value: 100.28, u: 0.05 },
        { value: 0.9999, u: fromHalfWidth(0.0001, 'rectangular') },
        { value: 100, u: fromHalfWidth(0.1, 'triangular') },
        { value: 0, u: 0.02 },
        { value: 0, u: fromHalfWidth(0.084, 'rectangular') },
      ],
    );
    expect(found.value).toBeCloseTo(1002.7, 1);
    expect(found.standardUncertainty).toBeCloseTo(0.835199, 6);
    const parts = [0.49995, 0.0578967, 0.40935, 0.20054, 0.486284];
    found.budget.forEach(({ contribution }, i) => expect(contribution).toBeCloseTo(parts[i]!, 5));
  });

  // EURACHEM/CITAC A2, seen in docs/API/CITAC_A2.rst of the same repository: 0.102136159706, u 0.000100500722124.
  it('a sodium hydroxide solution', () => {
    const flat = (value: number, halfWidth: number) => ({
      value,
      u: fromHalfWidth(halfWidth, 'rectangular'),
    });
    const found = of(
      ([tare = 0, gross = 0, purity = 0, c = 0, h = 0, o = 0, k = 0, cal = 0, warm = 0, r = 0]) =>
        (r * 1000 * (0.3888 + gross - tare) * purity) / ((8 * c + 5 * h + 4 * o + k) * (18.64 + cal + warm)),
      [
        ...[flat(0, 0.15e-3), flat(0, 0.15e-3), flat(1, 0.0005)],
        ...[flat(12.0107, 0.0008), flat(1.00794, 0.00007), flat(15.9994, 0.0003), flat(39.0983, 0.0001)],
        { value: 0, u: fromHalfWidth(0.03, 'triangular') },
        { value: 0, u: 0.006 },
        { value: 1, u: 0.0005 },
      ],
    );
    expect(found.value).toBeCloseTo(0.102136159706, 11);
    expect(found.standardUncertainty).toBeCloseTo(0.000100500722124, 12);
  });

  // NIST TN 1900 E13 and the NIST calculator's example 10, seen in github:sandialabs/suncal, test_examples.py.
  it('thermal expansion and the Stefan-Boltzmann constant', () => {
    const expansion = of(
      ([l0 = 0, t0 = 0, l1 = 0, t1 = 0]) => (l1 - l0) / (l0 * (t1 - t0)),
      [
        { value: 1.4999, u: 0.0001, df: 3 },
        { value: 288.15, u: 0.02, df: 3 },
        { value: 1.5021, u: 0.0002, df: 3 },
        { value: 373.1, u: 0.05, df: 3 },
      ],
    );
    expect(expansion.value * 1e5).toBeCloseTo(1.7266, 4);
    expect(expansion.standardUncertainty * 1e6).toBeCloseTo(1.76, 2);
    const constant = of(
      ([h = 0, r = 0, rydberg = 0, e = 0, a = 0]) =>
        (32 * Math.PI ** 5 * h * r ** 4 * rydberg ** 4) /
        (15 * e ** 4 * 0.001 ** 4 * 299792458 ** 6 * a ** 8),
      [
        { value: 6.62606957e-34, u: 2.9e-41 },
        { value: 8.3144621, u: 0.0000075 },
        { value: 10973731.568539, u: 0.000055 },
        { value: 5.4857990946e-4, u: 2.2e-13 },
        { value: 7.2973525698e-3, u: 2.4e-12 },
      ],
    );
    expect(constant.value * 1e8).toBeCloseTo(5.67037, 5);
    expect(constant.standardUncertainty * 1e13).toBeCloseTo(2.05, 2);
  });

  // Seen in the same file: 12.8 of a course note; 27.7 of another, U 0.0101, which says its figures are rounded.
  it('effective degrees of freedom', () => {
    const sum = of(
      ([a = 0, b = 0]) => a + b,
      [
        { value: 1, u: 0.57, df: 9 },
        { value: 1, u: 0.25 },
      ],
    );
    expect(sum.degreesOfFreedom).toBeCloseTo(12.8, 1);
    const ratio = of(
      ([a = 0, b = 0, c = 0]) => (a / b) * c,
      [
        { value: 0.182, u: 0.00093, df: 9 },
        { value: 0.1823, u: 0.00058, df: 19 },
        { value: 0.6978, u: 0.0026, df: 19 },
      ],
    );
    expect(Math.abs(ratio.standardUncertainty - 0.00494)).toBeLessThan(1e-5);
    expect(Math.abs(ratio.degreesOfFreedom - 27.7)).toBeLessThan(0.5);
    expect(ratio.expandedUncertainty).toBeCloseTo(0.0101, 4);
  });
});

describe('propagate', () => {
  it('uses a derivative that is given', () => {
    const found = of(([x = 0]) => x ** 3, [{ value: 2, u: 0.1, derivative: ([x = 0]) => 3 * x ** 2 }]);
    expect(found.budget[0]?.sensitivity).toBe(12);
    expect(found).toMatchObject({ standardUncertainty: expect.closeTo(1.2, 12), coverageFactor: 2 });
  });

  it('finds the derivative of a power law to nine digits', () => {
    const number = fc.double({ min: 1, max: 100, noNaN: true });
    fc.assert(
      fc.property(number, fc.double({ min: 0.5, max: 1, noNaN: true }), (p, n) => {
        const found = of(([x = 0]) => 120 * x ** n, [{ value: p, u: p * 0.01 }]);
        expect(found.budget[0]!.sensitivity / (120 * n * p ** (n - 1))).toBeCloseTo(1, 9);
      }),
    );
  });

  it('adds fully correlated and cancels opposed uncertainties', () => {
    const two = [
      { value: 1, u: 3 },
      { value: 1, u: 4 },
    ];
    const sum = ([a = 0, b = 0]: readonly number[]) => a + b;
    const u = (r: number) =>
      of(sum, two, [
        [1, r],
        [r, 1],
      ]).standardUncertainty;
    expect(u(1)).toBeCloseTo(7, 9);
    expect(u(0)).toBeCloseTo(5, 9);
    expect(u(-1)).toBeCloseTo(1, 9);
  });

  it('is exact without uncertainty', () => {
    expect(of(([a = 0]) => a * 2, [{ value: 0, u: 0 }])).toMatchObject({
      value: 0,
      standardUncertainty: 0,
      degreesOfFreedom: Infinity,
      expandedUncertainty: 0,
      budget: [{ label: '', share: 0, contribution: 0, sensitivity: expect.closeTo(2, 9) }],
    });
  });

  const fine = { value: 1, u: 1 };
  it.each<[UncertainInput[], number[][] | undefined, string]>([
    [[], undefined, 'no-inputs'],
    [[{ value: NaN, u: 1 }], undefined, 'not-a-number'],
    [[{ value: 1, u: Infinity }], undefined, 'not-a-number'],
    [[{ value: 1, u: -1 }], undefined, 'negative-uncertainty'],
    [[{ value: 1, u: 1, df: 0 }], undefined, 'bad-degrees-of-freedom'],
    [[{ value: -1, u: 1 }], undefined, 'not-a-number'],
    [[fine], [[0.9]], 'bad-correlation'],
    [[fine], [[1, 0]], 'bad-correlation'],
    [
      [fine, fine],
      [
        [1, 1.1],
        [1.1, 1],
      ],
      'bad-correlation',
    ],
    [
      [fine, fine],
      [
        [1, 0.1],
        [0.2, 1],
      ],
      'bad-correlation',
    ],
    [[fine, fine], [[1, 0.1]], 'bad-correlation'],
    [
      [fine, fine, fine],
      [
        [1, 0.9, -0.9],
        [0.9, 1, 0.9],
        [-0.9, 0.9, 1],
      ],
      'bad-correlation',
    ],
    [
      [fine, fine, fine],
      [
        [1, 1, 0],
        [1, 1, 0.5],
        [0, 0.5, 1],
      ],
      'bad-correlation',
    ],
  ])('refuses %o with %o', (inputs, correlation, code) => {
    expect(propagate(([x = 0]) => Math.log(x), inputs, correlation)).toMatchObject({ problem: { code } });
  });

  it('names the input that is wrong', () => {
    expect(propagate(() => 0, [fine, { label: 'Volume', value: 1, u: -2 }])).toMatchObject({
      problem: { path: 'inputs.1', message: 'Volume has an uncertainty of -2.' },
    });
    expect(propagate(() => 0, [{ value: 1, u: NaN }])).toMatchObject({
      problem: { path: 'inputs.0', message: 'Input 1 or its uncertainty is not a number.' },
    });
  });
});
