import { describe, expect, it } from 'vitest';
import { noisyHouse, textbookHouse } from '../testing/reference-data.ts';
import { fitEnvelopeTest } from './fit-envelope-test.ts';
import type { EnvelopeReading, EnvelopeTest, Finding } from './types.ts';

const steady = [10, 20, 30, 40, 50, 60];
const law = (n: number, pressures = steady): EnvelopeReading[] =>
  pressures.map((pressure) => ({ pressure, flow: 120 * pressure ** n }));

function findings(part: Partial<EnvelopeTest>): Finding[] {
  const found = fitEnvelopeTest({ baselineBefore: 0, baselineAfter: 0, points: law(0.65), ...part });
  if (!found.ok) throw new Error(found.problem.message);
  expect(found.value.valid).toBe(!found.value.findings.some(({ severity }) => severity === 'invalid'));
  return found.value.findings;
}

const shifted = (by: number, points = law(0.65)) =>
  points.map(({ pressure, flow }) => ({ pressure: pressure + by, flow }));

describe('findings of an envelope test', () => {
  it('are none for a good test', () => {
    expect(findings({})).toEqual([]);
    expect(findings({ points: noisyHouse })).toEqual([]);
    expect(findings({ points: law(0.5) })).toEqual([]);
    expect(findings({ points: law(1) })).toEqual([]);
  });

  it.each<[Partial<EnvelopeTest>, string, Finding['severity'], string]>([
    [
      { points: law(0.49) },
      'exponent-out-of-range',
      'invalid',
      'an exponent of 0.49; a house lies between 0.5 and 1',
    ],
    [{ points: law(1.01) }, 'exponent-out-of-range', 'invalid', 'an exponent of 1.01'],
    [
      { points: law(0.65, [10, 20, 30, 40]) },
      'too-few-points',
      'invalid',
      'There are 4 different pressures; at least 5',
    ],
    [
      { points: law(0.65, [10, 20, 30, 40, 49.4]) },
      'highest-too-low',
      'remark',
      'The highest pressure is 49.4 Pa',
    ],
    [
      { points: law(0.65, [25.1, 35, 40, 45, 50]) },
      'narrow-range',
      'remark',
      'The lowest pressure is 25.1 Pa',
    ],
    [{ points: law(0.65, [10, 22.1, 30, 40, 50]) }, 'step-too-large', 'remark', 'lie 12.1 Pa apart'],
    [
      { baselineBefore: -5.1, baselineAfter: 5 },
      'baseline-too-windy',
      'invalid',
      'The baseline before is -5.1 Pa',
    ],
    [{ baselineBefore: 0, baselineAfter: 1.1 }, 'baseline-drift', 'remark', 'drifted by 1.1 Pa'],
    [
      { baselineBefore: 2.1, baselineAfter: 2.1, points: shifted(2.1) },
      'lowest-below-baseline',
      'invalid',
      'Point 1 at 10 Pa is less than 5 times',
    ],
  ])('%o', (part, code, severity, words) => {
    const found = findings(part).find((each) => each.code === code);
    expect(found).toMatchObject({ severity, message: expect.stringContaining(words) });
    expect(found?.source).not.toBe('');
  });

  it('keep quiet on the limit', () => {
    expect(findings({ points: law(0.65, [10, 20, 30, 40, 49.5]) })).toEqual([]);
    expect(findings({ points: law(0.65, [25, 35, 40, 45, 50]) })).toEqual([]);
    expect(findings({ points: law(0.65, [10, 22, 30, 40, 50]) })).toEqual([]);
    expect(findings({ baselineBefore: 2, baselineAfter: 2, points: shifted(2) })).toEqual([]);
    expect(findings({ baselineBefore: 0.5, baselineAfter: -0.5 })).toEqual([]);
  });

  it('ask for a baseline after', () => {
    const found = fitEnvelopeTest({ baselineBefore: 0, points: law(0.65) });
    expect(found.ok && found.value.findings).toMatchObject([
      { code: 'no-baseline-after', severity: 'remark' },
    ]);
  });

  // r² of 0.9815 is just good enough; a little more scatter is not. The page with the data says so (seen).
  it('refuse points that scatter', () => {
    const without = textbookHouse.map((point, i) => (i === 3 ? { ...point, flow: 640 } : point));
    expect(findings({ points: textbookHouse })).toEqual([]);
    expect(findings({ points: without })).toMatchObject([
      { code: 'low-r-squared', severity: 'invalid', message: expect.stringContaining('below 0.98') },
    ]);
  });

  it('name the point that does not belong', () => {
    const points = noisyHouse.map((point, i) =>
      i === 3 ? { ...point, flow: point.flow * 1.1, label: 'Fourth' } : point,
    );
    expect(findings({ points })).toMatchObject([
      {
        code: 'stray-point',
        point: 3,
        direction: 'pressurise',
        message: expect.stringMatching(/^Fourth at 35.5 Pa lies 9\.\d % above the line/),
      },
    ]);
    const low = noisyHouse.map((point, i) => (i === 3 ? { ...point, flow: point.flow / 1.1 } : point));
    expect(findings({ points: low })[0]?.message).toContain('% below the line');
  });
});
