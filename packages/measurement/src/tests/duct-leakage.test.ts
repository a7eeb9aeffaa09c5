import { describe, expect, it } from 'vitest';
import { ductTester } from '../testing/instruments.ts';
import { firstMessage, outcomeOf, results } from '../testing/readings.ts';

const ofTheDucts = ['duct-leakage-rough', 'duct-leakage-total', 'ventilator-duct-leakage'] as const;

describe.each(ofTheDucts)('%s', (key) => {
  // 70 at 15 Pa and 110 at 20 Pa: computed independently.
  it('takes the flow to 25 Pa, whichever sign the ducts had', () => {
    for (const ductPressure of [15, -15]) {
      const outcome = outcomeOf(key, { values: { ductPressure, flow: 70 } });
      expect(results(outcome)).toEqual({
        leakageAt25: expect.closeTo(95.1059, 4),
        reachedPressure: 15,
        measuredFlow: 70,
      });
      expect(outcome).toMatchObject({ remarks: ['extrapolated from 15 Pa'] });
    }
    expect(results(outcomeOf(key, { values: { ductPressure: 20, flow: 110 } }))).toMatchObject({
      leakageAt25: expect.closeTo(125.7589, 4),
    });
  });

  it('leaves a reading at 25 Pa as it is, without a remark', () => {
    expect(outcomeOf(key, { values: { ductPressure: 25, flow: 72 } })).toMatchObject({
      ok: true,
      values: [{ value: 72 }, { value: 25 }, { value: 72 }],
      remarks: [],
    });
  });

  it('reads the flow from the fan’s pressure on a range and shows both steps', () => {
    const outcome = outcomeOf(key, {
      values: { ductPressure: 25, fanPressure: -100 },
      choices: { range: 'large' },
    });
    expect(results(outcome)).toMatchObject({ leakageAt25: 200 });
    expect(outcome.ok && outcome.steps.map(({ working }) => working)).toEqual([
      '20 × 100^0.5',
      '200 × (25 / 25)^0.60',
      '3.4641',
      '0.1443 × 4.8',
      '√(3.4641² + 0.6928²)',
    ]);
  });

  it.each([
    [{ ductPressure: 25 }, {}, 'values.flow missing', 'Neither fan pressure nor flow is entered'],
    [{ ductPressure: 25, flow: 70, fanPressure: 50 }, {}, 'values.flow entered-twice', 'are both entered'],
    [{ ductPressure: 25, fanPressure: 50 }, {}, 'choices.range missing', 'The range is missing'],
    [
      { ductPressure: 25, fanPressure: 5 },
      { range: 'small' },
      'values.fanPressure below-range',
      'Use a smaller opening',
    ],
    [
      { ductPressure: 25, fanPressure: 50 },
      { range: 'tiny' },
      'choices.range unknown-choice',
      'small, large',
    ],
    [{ ductPressure: 0, flow: 70 }, {}, 'values.ductPressure zero-pressure', 'is 0 Pa'],
    [{ ductPressure: 9.9, flow: 70 }, {}, 'values.ductPressure below-lowest-pressure', 'below 10 Pa'],
  ])('refuses %o with %o', (values, choices, refused, words) => {
    const outcome = outcomeOf(key, {
      values: values as Record<string, number>,
      choices: choices as Record<string, string>,
    });
    expect(results(outcome)).toEqual({ refused });
    expect(firstMessage(outcome)).toContain(words);
  });
});

describe('uncertainty of duct leakage', () => {
  const uncertainties = (ductPressure: number, tester = ductTester) => {
    const outcome = outcomeOf('duct-leakage-total', { values: { ductPressure, flow: 70 } }, tester);
    return outcome.ok ? outcome.values.map(({ standardUncertainty }) => standardUncertainty) : [];
  };

  it('is that of the flow, of the gauge and of the assumed exponent', () => {
    const leakage = 95.1059;
    const parts = [
      (leakage * 0.03) / Math.sqrt(3),
      (leakage * 0.6 * 0.25) / 15 / Math.sqrt(3),
      (leakage * 0.1 * Math.log(25 / 15)) / Math.sqrt(3),
    ];
    expect(uncertainties(15)).toEqual([
      expect.closeTo(Math.hypot(...parts), 3),
      expect.closeTo(0.25 / Math.sqrt(3), 9),
      expect.closeTo(2.1 / Math.sqrt(3), 9),
    ]);
  });

  it('owes nothing to the exponent at 25 Pa, and the more the further it was taken', () => {
    expect(uncertainties(25)[0]).toBeCloseTo(Math.hypot(2.1, 70 * 0.6 * 0.01) / Math.sqrt(3), 9);
    const shares = [25, 20, 15, 10].map((p) => (uncertainties(p)[0] ?? NaN) / (70 * (25 / p) ** 0.6));
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
  });

  it('shows what it is made of after the result', () => {
    const outcome = outcomeOf('duct-leakage-total', { values: { ductPressure: 15, flow: 70 } });
    expect(outcome.ok && outcome.steps.map(({ label, working }) => `${label}: ${working}`)).toEqual([
      'Leakage at 25 Pa: 70 × (25 / 15)^0.60',
      'Error of the flow: 1.2124 × 1.3587',
      'Error of the pressure reached: 0.1443 × 3.8042',
      'Error of the assumed exponent: 0.0577 × 48.5825',
      'Standard uncertainty: √(1.6473² + 0.5491² + 2.8049²)',
    ]);
    expect(outcome.ok && outcome.steps.at(-1)).toMatchObject({ unit: 'cfm' });
  });

  it('has the step of the display in a flow that was displayed, not in one worked out from the fan', () => {
    const coarse = { ...ductTester, resolution: 5 };
    expect(uncertainties(25, coarse)[2]).toBeCloseTo(Math.hypot(2.1, 2.5) / Math.sqrt(3), 9);
    const values = { ductPressure: 25, fanPressure: 100 };
    const outcome = outcomeOf('duct-leakage-total', { values, choices: { range: 'small' } }, coarse);
    expect(outcome.ok && outcome.values[2]?.standardUncertainty).toBeCloseTo(1.5 / Math.sqrt(3), 9);
  });

  it('says what a flow is at most that the display cannot show', () => {
    const coarse = { ...ductTester, resolution: 5, label: 'Tester 4' };
    const remarks = (flow: number) => {
      const outcome = outcomeOf('duct-leakage-total', { values: { ductPressure: 15, flow } }, coarse);
      return outcome.ok ? outcome.remarks : [];
    };
    expect(remarks(2)).toEqual([
      'extrapolated from 15 Pa',
      'Tester 4 shows steps of 5 cfm; all that is known is: at most 4.56 cfm.',
    ]);
    expect(remarks(5)).toEqual(['extrapolated from 15 Pa']);
  });

  it('is unknown when the tester states none', () => {
    const outcome = outcomeOf('duct-leakage-total', undefined, { ...ductTester, accuracyPercent: 0 });
    expect(outcome.ok && outcome.values[0]?.standardUncertainty).toBeNull();
    expect(outcome.ok && outcome.steps).toHaveLength(1);
  });
});

describe('duct leakage to outdoors', () => {
  const at = (housePressure: number, ductToHousePressure: number) =>
    outcomeOf('duct-leakage-outdoors', { values: { housePressure, ductToHousePressure, flow: 40 } });

  it('counts at the house’s pressure while the ducts are at the house’s', () => {
    expect(results(outcomeOf('duct-leakage-outdoors'))).toEqual({
      leakageAt25: 50,
      reachedPressure: 25,
      measuredFlow: 50,
    });
    expect(results(at(-20, -0.5))).toEqual({
      leakageAt25: expect.closeTo(40 * 1.1433, 2),
      reachedPressure: 20,
      measuredFlow: 40,
    });
  });

  it('refuses ducts that are not at the pressure of the house', () => {
    expect(results(at(25, 0.6))).toEqual({ refused: 'values.ductToHousePressure ducts-not-balanced' });
    expect(firstMessage(at(25, -0.6))).toContain(
      'The ducts are at -0.6 Pa to the house; bring them to 0 Pa (within 0.5 Pa)',
    );
    expect(firstMessage(at(25, -0.6))).toContain('so that the tester moves only what leaks outdoors');
  });

  it('refuses a house without pressure at its own field', () => {
    expect(results(at(0, 0))).toEqual({ refused: 'values.housePressure zero-pressure' });
    expect(results(at(8, 0))).toEqual({ refused: 'values.housePressure below-lowest-pressure' });
  });
});
