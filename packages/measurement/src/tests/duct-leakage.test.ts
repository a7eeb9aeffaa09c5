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
  it('is that of the flow, taken to 25 Pa with it', () => {
    const outcome = outcomeOf('duct-leakage-total', { values: { ductPressure: 15, flow: 70 } });
    const u = outcome.ok ? outcome.values.map(({ standardUncertainty }) => standardUncertainty) : [];
    expect(u).toEqual([
      expect.closeTo((95.1059 * 0.03) / Math.sqrt(3), 4),
      null,
      expect.closeTo(2.1 / Math.sqrt(3), 9),
    ]);
  });

  it('is unknown when the tester states none', () => {
    const outcome = outcomeOf('duct-leakage-total', undefined, { ...ductTester, accuracyPercent: 0 });
    expect(outcome.ok && outcome.values[0]?.standardUncertainty).toBeNull();
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
