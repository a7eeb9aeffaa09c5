import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flowAtReference, type ReferenceTarget } from './flow-at-reference.ts';

const ducts: ReferenceTarget = { reference: 25, exponent: 0.6, lowestShare: 0.4, label: 'Leakage at 25 Pa' };
const house: ReferenceTarget = { reference: 50, exponent: 0.65, lowestShare: 0.2, label: 'Leakage at 50 Pa' };

function flowOf(found: ReturnType<typeof flowAtReference>): number {
  return found.ok ? found.value.flow : NaN;
}

describe('flowAtReference', () => {
  // (25 / P)^0.60 and (50 / P)^0.65: computed independently.
  it.each([
    [10, 1.7329],
    [12.5, 1.5157],
    [15, 1.3587],
    [17.5, 1.2386],
    [20, 1.1433],
    [22.5, 1.0653],
    [24, 1.0248],
    [25, 1],
  ])('takes ducts from %s to 25 Pa by the factor %s', (pressure, factor) => {
    expect(flowOf(flowAtReference(1, pressure, ducts))).toBeCloseTo(factor, 4);
  });

  it.each([
    [10, 2.8466],
    [15, 2.1871],
    [20, 1.8141],
    [25, 1.5692],
    [30, 1.3938],
    [35, 1.2609],
    [40, 1.1561],
    [45, 1.0709],
    [49, 1.0132],
    [50, 1],
  ])('takes a house from %s to 50 Pa by the factor %s', (pressure, factor) => {
    const found = flowAtReference(1, -pressure, house);
    expect(flowOf(found)).toBeCloseTo(factor, 4);
    expect(found.ok && found.value.factor).toBeCloseTo(factor, 4);
  });

  it('shows its working and remarks on the extrapolation (70 at 15 Pa: computed independently)', () => {
    const found = flowAtReference(70, 15, ducts);
    expect(flowOf(found)).toBeCloseTo(95.1059, 4);
    expect(found).toMatchObject({
      value: {
        step: { label: 'Leakage at 25 Pa', working: '70 × (25 / 15)^0.60', unit: 'cfm' },
        remark: 'extrapolated from 15 Pa',
      },
    });
    expect(found.ok && found.value.step.value).toBe(flowOf(found));
    expect(flowOf(flowAtReference(110, 20, ducts))).toBeCloseTo(125.7589, 4);
  });

  it.each([
    [24.4, 'extrapolated from 24.4 Pa'],
    [24.5, null],
    [25.5, null],
    [25.6, 'corrected from 25.6 Pa'],
  ])('at %s Pa remarks: %s', (pressure, remark) => {
    expect(flowAtReference(70, pressure, ducts)).toMatchObject({ value: { remark } });
  });

  it('refuses what nothing follows from, in words', () => {
    expect(flowAtReference(70, 0, ducts)).toMatchObject({
      problem: {
        code: 'zero-pressure',
        message: expect.stringContaining('is 0 Pa: nothing follows for 25 Pa'),
      },
    });
    expect(flowAtReference(70, 9.9, ducts)).toMatchObject({
      problem: {
        code: 'below-lowest-pressure',
        message:
          'The pressure reached is 9.9 Pa; below 10 Pa nothing is taken to 25 Pa. Find the large leak or use a larger opening, then read again.',
      },
    });
    expect(flowAtReference(70, 10, ducts).ok).toBe(true);
    expect(flowAtReference(NaN, 25, ducts)).toMatchObject({
      problem: { path: 'values.flow', code: 'not-a-number', message: 'The flow is not a number.' },
    });
    expect(flowAtReference(-1, 25, ducts)).toMatchObject({
      problem: {
        path: 'values.flow',
        code: 'negative',
        message: 'The flow is -1 cfm, but it cannot be negative.',
      },
    });
    expect(flowAtReference(0, 25, ducts)).toMatchObject({ ok: true, value: { flow: 0 } });
    expect(flowAtReference(70, NaN, ducts)).toMatchObject({
      problem: { path: '', code: 'not-a-number', message: 'The pressure reached is not a number.' },
    });
  });

  it.each([{ reference: 0 }, { exponent: -0.6 }, { lowestShare: NaN }, { reference: Infinity }])(
    'refuses the target %s',
    (part) => {
      expect(flowAtReference(70, 25, { ...ducts, ...part })).toMatchObject({
        problem: { code: 'bad-target', message: expect.stringContaining('must be above zero') },
      });
    },
  );

  it('is exact for a noise-free power law, whatever pressure was reached', () => {
    const pressure = fc.double({ min: 10, max: 100, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 500, noNaN: true }), pressure, (c, reached) => {
        const at25 = c * 25 ** 0.6;
        expect(Math.abs(flowOf(flowAtReference(c * reached ** 0.6, reached, ducts)) / at25 - 1)).toBeLessThan(
          1e-12,
        );
      }),
    );
  });

  it('grows with the flow and falls with the pressure that the flow needed', () => {
    const flow = fc.double({ min: 1, max: 1000, noNaN: true });
    fc.assert(
      fc.property(flow, fc.double({ min: 10, max: 60, noNaN: true }), (q, reached) => {
        const here = flowOf(flowAtReference(q, reached, ducts));
        expect(flowOf(flowAtReference(q * 1.01, reached, ducts))).toBeGreaterThan(here);
        expect(flowOf(flowAtReference(q, reached * 1.01, ducts))).toBeLessThan(here);
      }),
    );
  });
});
