import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blowerDoor } from '../testing/instruments.ts';
import { firstMessage, outcomeOf, results } from '../testing/readings.ts';
import { noisyHouse, textbookHouse } from '../testing/reference-data.ts';

type Point = { pressure: number; flow: number };

function envelope(points: Point[], values: Record<string, number> = { baselineBefore: 0 }) {
  const rows = points.map(({ pressure, flow }) => ({ values: { housePressure: pressure, flow } }));
  return outcomeOf('envelope-leakage', { values, rows });
}

describe('envelope leakage from one point', () => {
  // Exponent 0.65: computed independently.
  it.each([
    [38, 0, 1100, 1314.8126],
    [-38, -2, 1100, 1361.8415],
    [22, 0, 2400, 4092.2957],
    [50, 0, 1300, 1300],
  ])('at %s Pa with a baseline of %s and %s cfm gives %s', (pressure, baselineBefore, flow, at50) => {
    expect(results(envelope([{ pressure, flow }], { baselineBefore }))).toEqual({
      flowAt50: expect.closeTo(at50, 3),
      reachedPressure: Math.abs(pressure - baselineBefore),
    });
  });

  it('takes off the mean of both baselines and shows it', () => {
    const outcome = envelope([{ pressure: -50, flow: 1300 }], { baselineBefore: -2, baselineAfter: -1 });
    expect(results(outcome)).toMatchObject({ reachedPressure: 48.5 });
    expect(outcome).toMatchObject({
      steps: [
        {
          label: 'Point 1: pressure made by the fan',
          working: '-50 − mean(-2, -1)',
          value: -48.5,
          unit: 'Pa',
        },
        { label: 'Leakage at 50 Pa', working: '1300 × (50 / 48.5)^0.65' },
      ],
      remarks: ['exponent 0.65 assumed', 'extrapolated from 48.5 Pa'],
    });
  });

  it('remarks only on the exponent at 50 Pa, and carries the fan’s uncertainty', () => {
    const outcome = envelope([{ pressure: 50, flow: 1300 }]);
    expect(outcome).toMatchObject({ remarks: ['exponent 0.65 assumed'] });
    expect(outcome.ok && outcome.values[0]?.standardUncertainty).toBeCloseTo((1300 * 0.03) / Math.sqrt(3), 9);
    const far = envelope([{ pressure: 25, flow: 1300 }]);
    const at50 = 1300 * 2 ** 0.65;
    expect(far.ok && far.values[0]?.standardUncertainty).toBeCloseTo(
      at50 * Math.hypot(0.03 / Math.sqrt(3), Math.log(2) * 0.05),
      9,
    );
  });

  it('reads the flow from the fan’s pressure on a range', () => {
    const rows = [{ values: { housePressure: 50, fanPressure: 36 }, choices: { range: 'full' } }];
    const outcome = outcomeOf('envelope-leakage', { values: { baselineBefore: 0 }, rows });
    expect(results(outcome)).toMatchObject({ flowAt50: expect.closeTo(1200, 9) });
    expect(outcome.ok && outcome.steps[0]?.working).toBe('200 × 36^0.5');
  });

  it('leaves the uncertainty unknown when the fan states none', () => {
    const outcome = outcomeOf('envelope-leakage', undefined, { ...blowerDoor, accuracyPercent: 0 });
    expect(outcome.ok && outcome.values[0]?.standardUncertainty).toBeNull();
  });

  it.each([
    [[{ pressure: 14.9, flow: 900 }], 'rows.0.values.housePressure below-lowest-pressure', 'below 15 Pa'],
    [[{ pressure: 0, flow: 900 }], 'rows.0.values.housePressure zero-pressure', 'the fan changed nothing'],
    [
      [
        { pressure: 50, flow: 900 },
        { pressure: -50, flow: 900 },
      ],
      'rows.1.values.housePressure mixed-signs',
      'one direction per reading',
    ],
  ])('refuses %o', (points, refused, words) => {
    const outcome = envelope(points);
    expect(results(outcome)).toEqual({ refused });
    expect(firstMessage(outcome)).toContain(words);
  });

  it('names the row whose fan reading is wrong', () => {
    const rows = [
      { values: { housePressure: 50, flow: 900 } },
      { values: { housePressure: 40, fanPressure: 5 }, choices: { range: 'full' } },
    ];
    const at = (part: object) =>
      results(outcomeOf('envelope-leakage', { values: { baselineBefore: 0 }, rows: [rows[0] ?? {}, part] }));
    expect(at(rows[1] ?? {})).toEqual({ refused: 'rows.1.values.fanPressure below-range' });
    expect(at({ values: { housePressure: 40 } })).toEqual({ refused: 'rows.1.values.flow missing' });
    expect(at({ values: { housePressure: 40, fanPressure: 50 } })).toEqual({
      refused: 'rows.1.choices.range missing',
    });
    expect(at({ values: { housePressure: 40, fanPressure: 50, flow: 3 } })).toEqual({
      refused: 'rows.1.values.flow entered-twice',
    });
  });

  it('remarks on a baseline beyond 5 Pa', () => {
    const words = (baselineBefore: number) => {
      const outcome = envelope([{ pressure: 50, flow: 1300 }], { baselineBefore });
      return outcome.ok ? outcome.remarks.join() : '';
    };
    expect(words(-5)).not.toContain('baseline');
    expect(words(5.1)).toContain('the baseline of 5.1 Pa is more than 5 Pa');
    expect(words(-5.1)).toContain('the baseline of -5.1 Pa is more than 5 Pa');
  });

  it('remarks on two baselines that cancel each other, and on one that drifts', () => {
    const words = (baselineBefore: number, baselineAfter: number, pressure = 50) => {
      const outcome = envelope([{ pressure, flow: 1300 }], { baselineBefore, baselineAfter });
      return outcome.ok ? outcome.remarks.join('; ') : '';
    };
    expect(words(-9, 9)).toContain('the baseline of -9 Pa is more than 5 Pa');
    expect(words(-9, 9)).toContain('the baseline of 9 Pa is more than 5 Pa');
    expect(words(2, -4)).toContain(
      'the baseline went from 2 to -4 Pa, more than a tenth of the 51 Pa that the fan made',
    );
    expect(words(2, -2.9)).not.toContain('baseline');
    expect(words(-2, -4.4, -25)).toContain('more than a tenth of the 21.8 Pa');
  });
});

describe('envelope leakage from two to four points', () => {
  it('uses the point nearest 50 Pa and says so', () => {
    const points = [30, 47, 54, 60].map((pressure) => ({ pressure, flow: 1000 + pressure }));
    const outcome = envelope(points);
    expect(results(outcome)).toMatchObject({ reachedPressure: 47 });
    expect(outcome.ok && outcome.remarks[0]).toBe('fewer than 5 different pressures: only Point 2 is used');
    expect(results(envelope([...points].reverse()))).toMatchObject({ reachedPressure: 47 });
    expect(
      results(envelope(points.map(({ pressure, flow }) => ({ pressure: -pressure, flow })))),
    ).toMatchObject({ reachedPressure: 47 });
  });

  it('takes the higher of two points equally near, in any order', () => {
    const points = [45, 55].map((pressure) => ({ pressure, flow: 1000 + pressure }));
    expect(results(envelope(points))).toMatchObject({ reachedPressure: 55 });
    expect(results(envelope([...points].reverse()))).toMatchObject({ reachedPressure: 55 });
  });

  it('counts different pressures, not rows', () => {
    const points = [50, 50, 40, 30, 20].map((pressure) => ({ pressure, flow: 1000 }));
    expect(results(envelope(points))).not.toHaveProperty('exponent');
  });
});

describe('envelope leakage from five points or more', () => {
  // Textbook data (seen) with flows as cfm; noisy house: computed independently.
  it.each([
    [
      textbookHouse,
      0.643448789,
      53.395623,
      661.768132,
      0.981478569,
      Math.log(729.406983 / 661.768132) / 2.776445105,
    ],
    [noisyHouse, 0.644539441, 122.111267, 1519.878647, 0.999408803, 0.004029283],
  ])('fits a power law', (points, exponent, flowAt1, flowAt50, rSquared, scatter) => {
    const outcome = envelope(points);
    expect(results(outcome)).toEqual({
      flowAt50: expect.closeTo(flowAt50, 5),
      reachedPressure: 60,
      exponent: expect.closeTo(exponent, 8),
      flowAt1: expect.closeTo(flowAt1, 5),
      rSquared: expect.closeTo(rSquared, 8),
    });
    expect(outcome).toMatchObject({ remarks: [] });
    expect(outcome.ok && outcome.values[0]?.standardUncertainty).toBeCloseTo(
      flowAt50 * Math.hypot(0.03 / Math.sqrt(3), scatter),
      4,
    );
  });

  it('shows the fit in its working', () => {
    const outcome = envelope(noisyHouse);
    expect(
      outcome.ok &&
        outcome.steps.slice(-4).map(({ label, working, unit }) => `${label}: ${working} [${unit}]`),
    ).toEqual([
      'Pressure exponent: least squares of ln flow on ln pressure over 8 points [1]',
      'Flow at 1 Pa: least squares of ln flow on ln pressure over 8 points [cfm]',
      'r²: least squares of ln flow on ln pressure over 8 points [1]',
      'Leakage at 50 Pa: 122.111 × 50^0.645 [cfm]',
    ]);
  });

  const law = (n: number, pressures: number[], c = 100) =>
    pressures.map((pressure) => ({ pressure, flow: c * pressure ** n }));

  it('is exact for a noise-free power law and does not depend on the order', () => {
    const exponent = fc.double({ min: 0.5, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        exponent,
        fc.shuffledSubarray([15, 22, 31, 40, 52, 60], { minLength: 5 }),
        (n, pressures) => {
          const found = results(envelope(law(n, pressures, 80)));
          expect(Number(found['flowAt50']) / (80 * 50 ** n)).toBeCloseTo(1, 9);
          expect(Number(found['exponent'])).toBeCloseTo(n, 9);
        },
      ),
    );
  });

  it.each([0.49, 1.01])('refuses an exponent of %s', (n) => {
    const outcome = envelope(law(n, [20, 30, 40, 50, 60]));
    expect(results(outcome)).toEqual({ refused: 'rows exponent-out-of-range' });
    expect(firstMessage(outcome)).toContain(
      `The points give an exponent of ${n}; a house lies between 0.5 and 1.`,
    );
  });

  it('remarks on a highest pressure below 50 Pa and refuses one below 15', () => {
    expect(envelope(law(0.65, [10, 15, 20, 25, 30]))).toMatchObject({ remarks: ['extrapolated from 30 Pa'] });
    expect(envelope(law(0.65, [10, 20, 30, 40, 49.5]))).toMatchObject({ remarks: [] });
    const low = envelope(law(0.65, [8, 9, 10, 12, 14.9]));
    expect(results(low)).toEqual({ refused: 'rows below-lowest-pressure' });
    expect(firstMessage(low)).toContain(
      'The highest pressure is 14.9 Pa; below 15 Pa nothing is taken to 50 Pa.',
    );
    expect(results(envelope(law(0.65, [8, 9, 10, 12, 15])))).toHaveProperty('flowAt50');
  });

  it('draws no line through points that hardly differ: noise would make any exponent of them', () => {
    // Around 16 Pa, 1 % of noise: the line gives 0.94 and 2,917 cfm where 1,212 × (50 / 16)^0.65 are 2,543.
    const close = [15, 15.5, 16, 16.5, 17].map((pressure, i) => ({
      pressure,
      flow: 200 * pressure ** 0.65 * (0.98 + i / 100),
    }));
    const outcome = envelope(close);
    expect(results(outcome)).toEqual({
      flowAt50: expect.closeTo(200 * 50 ** 0.65 * 1.02, 6),
      reachedPressure: 17,
    });
    expect(outcome.ok && outcome.remarks).toContain(
      'the pressures lie too close together for a line: only Point 5 is used',
    );
    const ends = (high: number) => results(envelope(law(0.65, [30, 33, 36, 39, high])));
    expect(ends(45)).toHaveProperty('exponent');
    expect(ends(44.9)).not.toHaveProperty('exponent');
    const both = [...close, ...close.map(({ pressure, flow }) => ({ pressure: -pressure, flow }))];
    expect(results(envelope(both))).toEqual({ refused: 'rows.5.values.housePressure mixed-signs' });
  });

  it('takes the mean of both directions', () => {
    const into = law(0.65, [20, 30, 40, 50, 60]);
    const out = law(0.65, [20, 30, 40, 50, 60], 120).map(({ pressure, flow }) => ({
      pressure: -pressure,
      flow,
    }));
    const outcome = envelope([...into, ...out]);
    expect(results(outcome)).toEqual({
      flowAt50: expect.closeTo(110 * 50 ** 0.65, 9),
      reachedPressure: 60,
      exponent: expect.closeTo(0.65, 12),
      flowAt1: expect.closeTo(110, 9),
      rSquared: expect.closeTo(1, 12),
    });
    expect(outcome).toMatchObject({ remarks: [expect.stringContaining('The directions differ')] });
    expect(outcome.ok && outcome.steps.at(-1)?.working).toBe(
      '120 × 50^0.65 and, mean of both, 100 × 50^0.65',
    );
    expect(outcome.ok && outcome.steps.at(-7)?.label).toBe('Pressure exponent, depressurised');
    expect(results(envelope([...into, ...out.slice(1)]))).toEqual({
      refused: 'rows.5.values.housePressure mixed-signs',
    });
  });

  it('widens the expanded uncertainty where few points scatter, and names the point that does not belong', () => {
    const few = envelope(textbookHouse);
    expect(few.ok && few.values[0]?.coverageFactor).toBeCloseTo(2.446912, 6);
    const known = few.ok && few.values[0];
    expect(known && known.expandedUncertainty).toBeCloseTo(
      2.446911851 * ((known && known.standardUncertainty) || 0),
      6,
    );
    const stray = noisyHouse.map((point, i) => (i === 3 ? { ...point, flow: point.flow * 1.1 } : point));
    expect(envelope(stray)).toMatchObject({ remarks: [expect.stringMatching(/^Point 4 at 35.5 Pa lies/)] });
  });

  it('remarks on points that scatter', () => {
    const points = textbookHouse.map((point, i) => (i === 3 ? { ...point, flow: 640 } : point));
    const outcome = envelope(points);
    expect(outcome.ok && outcome.remarks[0]).toMatch(/^the points scatter: r² is 0\.97\d\d, below 0\.98$/);
  });
});
