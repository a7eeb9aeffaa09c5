import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ductTester } from '../testing/instruments.ts';
import { type CurvePoint, monotoneCurve } from './monotone-curve.ts';
import { rangeFlow } from './range-flow.ts';
import { tableFlow, type TablePoint } from './table-flow.ts';

const valueOf = (found: { ok: true; value: number } | { ok: false }) => (found.ok ? found.value : NaN);

function curveOf(points: CurvePoint[]) {
  const found = monotoneCurve(points);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

/** The example of the paper that gave the method its name, as numerical libraries print it (from memory). */
const radiochemical: CurvePoint[] = [
  { x: 7.99, y: 0 },
  { x: 8.09, y: 2.76429e-5 },
  { x: 8.19, y: 4.37498e-2 },
  { x: 8.7, y: 0.169183 },
  { x: 9.2, y: 0.469428 },
  { x: 10, y: 0.94374 },
  { x: 12, y: 0.998636 },
  { x: 15, y: 0.999919 },
  { x: 20, y: 0.999994 },
];

/** Invented table of a device, Pa and cfm. */
const table: TablePoint[] = [
  { pressure: 10, flow: 16.2 },
  { pressure: 25, flow: 25.4 },
  { pressure: 60, flow: 39.8 },
  { pressure: 150, flow: 62 },
  { pressure: 400, flow: 101.5 },
];

const risingPoints = fc
  .array(fc.record({ dx: fc.double({ min: 0.01, max: 50, noNaN: true }), dy: fc.nat(1000) }), {
    minLength: 2,
    maxLength: 12,
  })
  .map((steps) => {
    let [x, y] = [0, 0];
    return steps.map(({ dx, dy }) => ({ x: (x += dx), y: (y += dy) }));
  });

describe('monotoneCurve', () => {
  // Computed independently, in another language, from the paper's rule.
  it.each([
    [8.05, 5.980936288973637e-6],
    [8.15, 0.023448744891385057],
    [8.4, 0.09333125787166723],
    [9, 0.34109457882352995],
    [9.6, 0.7580269011566393],
    [11, 0.9914330705416381],
    [13, 0.9995280184059957],
    [17, 0.9999730508487145],
  ])('on the paper’s example at %s is %s', (x, y) => {
    expect(valueOf(curveOf(radiochemical).at(x)) / y).toBeCloseTo(1, 11);
  });

  it('goes through every point exactly, in whatever order they come', () => {
    fc.assert(
      fc.property(risingPoints, (points) => {
        const [there, back] = [curveOf(points), curveOf([...points].reverse())];
        for (const { x, y } of points) {
          expect(valueOf(there.at(x))).toBe(y);
          expect(valueOf(back.at(x))).toBe(y);
        }
      }),
    );
  });

  it('never falls where the points rise, nor leaves the two points beside it', () => {
    const share = fc.double({ min: 0, max: 0.999, noNaN: true });
    fc.assert(
      fc.property(risingPoints, share, fc.nat(), (points, at, pick) => {
        const curve = curveOf(points);
        const i = pick % (points.length - 1);
        const [from, to] = [points[i]!, points[i + 1]!];
        const x = from.x + at * (to.x - from.x);
        const y = valueOf(curve.at(x));
        const grain = 1e-9 * (1 + to.y);
        expect(y).toBeGreaterThanOrEqual(from.y - grain);
        expect(y).toBeLessThanOrEqual(to.y + grain);
        expect(valueOf(curve.slopeAt(x))).toBeGreaterThanOrEqual(-grain / (to.x - from.x));
      }),
    );
  });

  it('turns at a peak without passing it, and stays flat between equals', () => {
    const curve = curveOf([
      { x: 0, y: 0 },
      { x: 1, y: 2 },
      { x: 2, y: 1 },
      { x: 3, y: 1 },
      { x: 4, y: 5 },
    ]);
    for (const x of [0.9, 1.1]) expect(valueOf(curve.at(x))).toBeLessThan(2);
    expect(valueOf(curve.slopeAt(1))).toBe(0);
    expect(valueOf(curve.at(2.5))).toBe(1);
    expect(valueOf(curve.slopeAt(2.5))).toBe(0);
  });

  it('has the slope that its heights have', () => {
    const curve = curveOf(radiochemical);
    for (const x of [8.05, 8.4, 9, 11, 17]) {
      const rise = valueOf(curve.at(x + 1e-6)) - valueOf(curve.at(x - 1e-6));
      expect(valueOf(curve.slopeAt(x))).toBeCloseTo(rise / 2e-6, 6);
    }
  });

  it('is a straight line through a straight line', () => {
    const curve = curveOf([1, 2, 4, 8].map((x) => ({ x, y: 3 * x - 1 })));
    for (const x of [1, 1.3, 3.7, 8]) {
      expect(valueOf(curve.at(x))).toBeCloseTo(3 * x - 1, 12);
      expect(valueOf(curve.slopeAt(x))).toBeCloseTo(3, 12);
    }
  });

  it('refuses to look beyond its ends, and what is no table', () => {
    const curve = curveOf(radiochemical);
    expect(curve.at(7.98)).toMatchObject({
      problem: {
        code: 'below-table',
        message: '7.98 was looked up, but the table holds from 7.99 to 20.',
      },
    });
    expect(curve.slopeAt(20.1)).toMatchObject({ problem: { code: 'above-table' } });
    expect(curve.at(NaN)).toMatchObject({ problem: { code: 'not-a-number' } });
    expect(curve.at(7.99)).toEqual({ ok: true, value: 0 });
    expect(curve.at(20)).toEqual({ ok: true, value: 0.999994 });
    expect(monotoneCurve([{ x: 1, y: 1 }])).toMatchObject({ problem: { code: 'too-few-points' } });
    expect(monotoneCurve([])).toMatchObject({
      problem: { path: 'points', message: expect.stringContaining('has 0') },
    });
    const bad = { x: 2, y: Infinity };
    expect(monotoneCurve([{ x: 1, y: 1 }, bad])).toMatchObject({ problem: { code: 'not-a-number' } });
    expect(monotoneCurve([{ x: NaN, y: 1 }, bad])).toMatchObject({ problem: { code: 'not-a-number' } });
    const repeated = [
      { x: 1, y: 1 },
      { x: 1, y: 2 },
    ];
    expect(monotoneCurve(repeated)).toMatchObject({
      problem: { code: 'repeated-point', message: 'The table has 1 twice.' },
    });
  });
});

describe('tableFlow', () => {
  // Computed independently, in another language.
  it.each([
    [12, 17.710840075300023],
    [25, 25.4],
    [40, 32.34478555477384],
    [100, 50.97133708616696],
    [300, 87.78768505079555],
  ])('at %s Pa is %s cfm', (pressure, flow) => {
    for (const shown of [pressure, -pressure]) {
      const found = tableFlow([...table].reverse(), shown);
      expect(found.ok && found.value.flow).toBeCloseTo(flow, 10);
    }
  });

  it('shows between which lines it read', () => {
    expect(tableFlow(table, 40)).toMatchObject({
      value: {
        step: {
          label: 'Flow from the table',
          working:
            'at 40 Pa between 25.4 cfm at 25 Pa and 39.8 cfm at 60 Pa, monotone curve through ln flow over ln pressure',
          unit: 'cfm',
        },
      },
    });
    expect(tableFlow(table, 10)).toMatchObject({
      value: {
        step: { working: expect.stringContaining('between 16.2 cfm at 10 Pa and 25.4 cfm at 25 Pa') },
      },
    });
    expect(tableFlow(table, 400).ok).toBe(true);
  });

  it('gives a power law back from a table made of one, with its exponent', () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(number(0.1, 500), number(0.4, 1), number(10, 400), (c, n, pressure) => {
        const lines = [10, 20, 70, 150, 400].map((p) => ({ pressure: p, flow: c * p ** n }));
        const found = tableFlow(lines, pressure);
        expect(found.ok && found.value.flow / (c * pressure ** n)).toBeCloseTo(1, 10);
        expect(found.ok && found.value.exponent).toBeCloseTo(n, 8);
      }),
    );
  });

  it('grows with the pressure', () => {
    const pressure = fc.double({ min: 10, max: 399, noNaN: true });
    fc.assert(
      fc.property(pressure, fc.double({ min: 0.01, max: 1, noNaN: true }), (p, more) => {
        const [less, greater] = [tableFlow(table, p), tableFlow(table, p + more)];
        expect(less.ok && greater.ok && greater.value.flow > less.value.flow).toBe(true);
      }),
    );
  });

  it.each([
    [9.99, 'pressure below-range', 'holds from 10 to 400 Pa. Use a smaller opening.'],
    [400.1, 'pressure above-range', 'Use a larger opening.'],
    [0, 'pressure zero-pressure', 'is 0 Pa'],
    [NaN, 'pressure not-a-number', 'is not a number'],
  ])('refuses %s Pa: %s', (pressure, refused, words) => {
    const found = tableFlow(table, pressure);
    expect(found.ok || `${found.problem.path} ${found.problem.code}`).toBe(refused);
    expect(found.ok || found.problem.message).toContain(words);
  });

  it.each([
    [[{ pressure: 10, flow: 5 }], 'too-few-points'],
    [[], 'too-few-points'],
    [
      [
        { pressure: 0, flow: 0 },
        { pressure: 10, flow: 5 },
      ],
      'bad-table',
    ],
    [
      [
        { pressure: 5, flow: 6 },
        { pressure: 10, flow: 6 },
      ],
      'bad-table',
    ],
    [
      [
        { pressure: 5, flow: Infinity },
        { pressure: 10, flow: 6 },
      ],
      'bad-table',
    ],
    [
      [
        { pressure: 5, flow: 5 },
        { pressure: 5, flow: 6 },
      ],
      'repeated-point',
    ],
  ])('refuses the table %o', (lines, code) => {
    expect(tableFlow(lines, 7)).toMatchObject({ problem: { path: 'table', code } });
  });
});

describe('rangeFlow with a table', () => {
  const device = (lines: TablePoint[], minPa = 10) => ({
    ...ductTester,
    ranges: [{ range: 'plate', c: 1, n: 1, minPa, maxPa: 300, table: lines }],
  });

  it('reads the table, under the range’s name', () => {
    expect(rangeFlow(device(table), 'plate', -60)).toMatchObject({
      ok: true,
      value: { flow: expect.closeTo(39.8, 10), step: { label: 'Flow on range plate' } },
    });
  });

  it('keeps to the narrower of table and limits', () => {
    expect(rangeFlow(device(table), 'plate', 301)).toMatchObject({ problem: { code: 'above-range' } });
    expect(rangeFlow(device(table, 5), 'plate', 7)).toMatchObject({
      problem: { path: 'values.fanPressure', code: 'below-range' },
    });
  });

  it('blames the calibration for a table that cannot be read', () => {
    expect(rangeFlow(device(table.slice(1, 2)), 'plate', 60)).toMatchObject({
      problem: { path: 'choices.range', code: 'bad-calibration' },
    });
  });
});
