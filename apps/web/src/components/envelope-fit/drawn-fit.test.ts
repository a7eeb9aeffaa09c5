import { describe, expect, it } from 'vitest';
import type { InstrumentFacts, RawReading } from '@countercheck/measurement';
import { drawnFit } from './drawn-fit.ts';

const door = {
  id: 'door',
  kind: 'blower-door',
  label: 'Door',
  accuracyPercent: 3,
  accuracyAbsolute: 0,
  resolution: null,
  calibratedOn: null,
  dueOn: null,
  ranges: [{ range: 'full', c: 200, n: 0.5, minPa: 15, maxPa: 300 }],
} satisfies InstrumentFacts;

const raw = (rows: Record<string, number>[], values: Record<string, number> = {}): RawReading => ({
  values,
  choices: {},
  confirmations: {},
  rows: rows.map((values, i) => ({
    label: `Point ${i + 1}`,
    values,
    choices: 'fanPressure' in values ? { range: 'full' } : {},
  })),
});
const pressures = [60, 51, 43, 34, 26, 17];
// One part in a hundred up and down, as of a steady hand.
const noisy = pressures.map((p, i) => ({
  housePressure: -p - 1,
  flow: 100 * p ** 0.65 * (1 + (i % 2 === 0 ? 0.01 : -0.01)),
}));
const calm = { baselineBefore: -1.2, baselineAfter: -0.8 };

describe('what is drawn of an envelope test', () => {
  it('is the line through the points, with the baseline taken off and its interval', () => {
    const { points, lines, atReference } = drawnFit(raw(noisy, calm), door);
    expect(points.map(({ pressure }) => pressure)).toEqual(pressures);
    expect(lines).toHaveLength(1);
    expect(lines[0]?.exponent).toBeCloseTo(0.65, 1);
    for (const flow of [lines[0]!.at(50), atReference!]) {
      expect(flow.value).toBeCloseTo(100 * 50 ** 0.65, -2);
      expect(flow.low).toBeLessThan(flow.value);
      expect(flow.high).toBeGreaterThan(flow.value);
    }
    for (const { residual, problem } of points) {
      expect(Math.abs(residual!)).toBeLessThan(0.03);
      expect(problem).toBeNull();
    }
  });

  it('assumes the exponent until there are enough points', () => {
    const { lines, atReference, findings } = drawnFit(raw(noisy.slice(0, 2), calm), door);
    expect(lines).toMatchObject([{ exponent: 0.65, rSquared: null }]);
    expect(atReference).toEqual({ value: expect.closeTo(0.99 * 100 * 50 ** 0.65, 6), low: null, high: null });
    expect(findings).toEqual([]);
  });

  it('leaves out what is not complete, and reads a fan pressure on its range', () => {
    const rows = [{ housePressure: 50, fanPressure: 100 }, { housePressure: 40 }, { flow: 900 }];
    expect(drawnFit(raw(rows), door).points).toMatchObject([{ key: '0', pressure: 50, flow: 2000 }]);
    expect(drawnFit(raw(rows), null).points).toEqual([]);
    expect(drawnFit(raw([]), null)).toEqual({ points: [], lines: [], atReference: null, findings: [] });
  });

  it('says what is wrong with a point and with the test', () => {
    const wild = noisy.map((row, i) => (i === 2 ? { ...row, flow: row.flow * 1.4 } : row));
    const { points, findings } = drawnFit(raw(wild, { baselineBefore: -1 }), door);
    expect(points.map(({ problem }) => problem !== null)).toEqual([false, false, true, false, false, false]);
    expect(findings.map(({ code }) => code)).toContain('no-baseline-after');
    const refused = [{ path: 'rows.1.values.flow', code: 'too-high', message: 'Too much.' }];
    expect(drawnFit(raw(noisy, calm), door, refused).points[1]?.problem).toBe('Too much.');
  });

  it('draws both directions of the fan', () => {
    const both = [
      ...noisy,
      ...noisy.map(({ housePressure, flow }) => ({ housePressure: -housePressure - 2, flow })),
    ];
    const { points, lines } = drawnFit(raw(both, calm), door);
    expect([points.length, lines.length]).toEqual([12, 2]);
  });
});
