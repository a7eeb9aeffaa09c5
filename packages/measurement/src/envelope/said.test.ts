import { describe, expect, it } from 'vitest';
import { opened, refusalOf } from '../testing/opened.ts';
import type { WorkingLine } from '../working/worked.ts';
import { envelopeDensityCorrection } from './density-correction.ts';
import { envelopeFlowAt } from './figures.ts';
import { fitEnvelopeTest } from './fit-envelope-test.ts';
import { leakageArea } from './leakage-area.ts';
import { onePointEnvelope, type OnePointTest } from './one-point.ts';
import { type EnvelopeTest, type Finding, type TestAir } from './types.ts';
import { noisyHouse } from '../testing/reference-data.ts';

const house = [10, 20, 30, 40, 50, 60].map((pressure) => ({ pressure, flow: 120 * pressure ** 0.65 }));
const test: EnvelopeTest = { baselineBefore: 0, baselineAfter: 0, points: house };
const air: TestAir = {
  form: 'E779',
  densityInside: 1.2,
  densityOutside: 1.3,
  temperatureInside: 70,
  temperatureOutside: 35,
};
const point: OnePointTest = { pressure: -50, flow: 1500, baselineBefore: 0 };
const law = (n: number, pressures: number[]) =>
  pressures.map((pressure) => ({ pressure, flow: 120 * Math.abs(pressure) ** n }));
const moved = (by: number) => house.map(({ pressure, flow }) => ({ pressure: pressure + by, flow }));
const withPoint = (more: object) => [{ ...house[0]!, ...more }, ...house.slice(1)];

type Stepped = { steps: WorkingLine[] };

describe('an envelope test that cannot be', () => {
  it.each([
    [
      'a volume of nothing',
      () => fitEnvelopeTest({ ...test, volume: 0 }),
      'The size is 0; it must be above zero, or left out.',
    ],
    [
      'a floor below zero',
      () => fitEnvelopeTest({ ...test, floorArea: -1 }),
      'The size is -1; it must be above zero, or left out.',
    ],
    [
      'an endless envelope',
      () => fitEnvelopeTest({ ...test, envelopeArea: Infinity }),
      'The size is Infinity; it must be above zero, or left out.',
    ],
    [
      'a reference of nothing',
      () => fitEnvelopeTest({ ...test, reference: 0 }),
      'The reference pressure is 0 Pa; it must be above zero.',
    ],
    [
      'a reference that is no number',
      () => fitEnvelopeTest({ ...test, reference: NaN }),
      'The reference pressure is NaN Pa; it must be above zero.',
    ],
    [
      'a shared uncertainty in percent',
      () => fitEnvelopeTest({ ...test, shared: { flow: 2 } }),
      'Shared uncertainties are relative: 0.02 is 2 %. They lie from 0 to below 1.',
    ],
    [
      'a shared uncertainty below zero',
      () => fitEnvelopeTest({ ...test, shared: { flow: 0.02, pressure: -0.1 } }),
      'Shared uncertainties are relative: 0.02 is 2 %. They lie from 0 to below 1.',
    ],
    [
      'a shared uncertainty of everything',
      () => fitEnvelopeTest({ ...test, shared: { size: 1 } }),
      'Shared uncertainties are relative: 0.02 is 2 %. They lie from 0 to below 1.',
    ],
    [
      'no baseline',
      () => fitEnvelopeTest({ ...test, baselineBefore: [] }),
      'Read the baseline with the fan covered and off, or give 0 where it is taken off the pressures already.',
    ],
    [
      'a baseline that a script left out',
      () => fitEnvelopeTest({ points: house } as unknown as EnvelopeTest),
      'Read the baseline with the fan covered and off, or give 0 where it is taken off the pressures already.',
    ],
    [
      'a baseline that a script left out',
      () => fitEnvelopeTest({ points: house } as unknown as EnvelopeTest),
      'Read the baseline with the fan covered and off, or give 0 where it is taken off the pressures already.',
    ],
    [
      'a baseline that is no number',
      () => fitEnvelopeTest({ ...test, baselineBefore: NaN }),
      'A baseline pressure is not a number.',
    ],
    [
      'a baseline after that is no number',
      () => fitEnvelopeTest({ ...test, baselineAfter: [0, NaN] }),
      'A baseline pressure is not a number.',
    ],
    ['no points', () => fitEnvelopeTest({ ...test, points: [] }), 'There are no points.'],
    [
      'two points',
      () => fitEnvelopeTest({ ...test, points: house.slice(0, 2) }),
      'The points that pressurise the house lie at fewer than 3 different pressures; a line with an interval needs 3. Take more points, or use one with an assumed exponent.',
    ],
    [
      'two points of suction',
      () => fitEnvelopeTest({ ...test, points: law(0.65, [-10, -50]) }),
      'The points that depressurise the house lie at fewer than 3 different pressures; a line with an interval needs 3. Take more points, or use one with an assumed exponent.',
    ],
    [
      'three points at two pressures',
      () => fitEnvelopeTest({ ...test, points: law(0.65, [10, 50, 50]) }),
      'The points that pressurise the house lie at fewer than 3 different pressures; a line with an interval needs 3. Take more points, or use one with an assumed exponent.',
    ],
    [
      'a point without pressure',
      () => fitEnvelopeTest({ ...test, points: withPoint({ pressure: 0 }) }),
      'Point 1 is at the baseline of 0 Pa: the fan changed nothing. Check the tubing and the fan.',
    ],
    [
      'a point whose pressure is no number',
      () => fitEnvelopeTest({ ...test, points: withPoint({ pressure: NaN }) }),
      'The pressure of Point 1 is not a number.',
    ],
    [
      'a point whose flow is nothing',
      () => fitEnvelopeTest({ ...test, points: withPoint({ flow: 0, label: 'Ring B' }) }),
      'The flow of Ring B is 0 cfm; it must be above zero.',
    ],
    [
      'a point whose flow is beyond all fans',
      () => fitEnvelopeTest({ ...test, points: withPoint({ flow: 1e9 }) }),
      'The flow of Point 1 is 1000000000 cfm; no fan of a house test gives that.',
    ],
    [
      'a point whose pressure is beyond all houses',
      () => fitEnvelopeTest({ ...test, points: withPoint({ pressure: 900 }) }),
      'The pressure of Point 1 is 900 Pa without the baseline; no house takes more than 500 Pa.',
    ],
    [
      'a point whose uncertainty is below zero',
      () => fitEnvelopeTest({ ...test, points: withPoint({ flowUncertainty: -1 }) }),
      'An uncertainty of Point 1 is not zero or above.',
    ],
    [
      'a weighting by uncertainties that are not there',
      () => fitEnvelopeTest({ ...test, weighting: 'uncertainty' }),
      'A point has no uncertainty of pressure or flow; weighting by uncertainty needs one each.',
    ],
    [
      'points that hardly differ',
      () => fitEnvelopeTest({ ...test, points: law(0.65, [50, 50.0000000001, 50.0000000002]) }),
      'The points that pressurise the house hardly differ in pressure. Spread them from about 10 to 60 Pa.',
    ],
    [
      'air of no place on earth',
      () => fitEnvelopeTest({ ...test, air: { ...air, densityOutside: 2.1 } }),
      'A density of 2.1 kg/m³ is not that of air at a house; 0.5 to 2.',
    ],
    [
      'air of no density',
      () => envelopeDensityCorrection('pressurise', 0.65, { ...air, densityInside: 0.4 }),
      'A density of 0.4 kg/m³ is not that of air at a house; 0.5 to 2.',
    ],
    [
      'air too cold',
      () => envelopeDensityCorrection('pressurise', 0.65, { ...air, temperatureOutside: -81 }),
      'A temperature of -81 °F is outside −80 to 150 °F.',
    ],
    [
      'air too hot',
      () => envelopeDensityCorrection('pressurise', 0.65, { ...air, temperatureInside: 151 }),
      'A temperature of 151 °F is outside −80 to 150 °F.',
    ],
    ['a flow at no pressure', () => envelopeFlowAt([], 0), 'The pressure is 0 Pa; it must be above zero.'],
    ['a flow of no fit', () => envelopeFlowAt([], 50), 'There is no fit.'],
    [
      'a leakage area of a flow below zero',
      () => leakageArea({ flow: -1, pressure: 4, dischargeCoefficient: 1 }),
      'The flow is -1 cfm; it must be zero or more.',
    ],
    [
      'a leakage area at no pressure',
      () => leakageArea({ flow: 100, pressure: 0, dischargeCoefficient: 1 }),
      'The pressure is 0 Pa; it must be above zero.',
    ],
    [
      'a leakage area of an opening that lets nothing through',
      () => leakageArea({ flow: 100, pressure: 4, dischargeCoefficient: 0 }),
      'The discharge coefficient is 0; it must be above zero.',
    ],
    [
      'a leakage area in no air',
      () => leakageArea({ flow: 100, pressure: 4, dischargeCoefficient: 1, density: -1 }),
      'The density is -1 kg/m³; it must be above zero.',
    ],
    [
      'one point that is no number',
      () => onePointEnvelope({ ...point, pressure: NaN }),
      'The pressure is not a number.',
    ],
    [
      'one point without flow',
      () => onePointEnvelope({ ...point, flow: 0 }),
      'The flow is 0 cfm; it must be above zero.',
    ],
    [
      'one point at which the fan stood still',
      () => onePointEnvelope({ ...point, pressure: 0 }),
      'The fan changed nothing. Check tubing and fan.',
    ],
    [
      'one point below 15 Pa',
      () => onePointEnvelope({ ...point, pressure: -14.9 }),
      'The pressure reached is 14.9 Pa; below 15 Pa nothing is taken to a reference. Find the large leak or use a larger opening, then read again.',
    ],
    [
      'one point to no reference',
      () => onePointEnvelope({ ...point, reference: 0 }),
      'The reference pressure is 0 Pa; above zero.',
    ],
    [
      'one point with an exponent of no house',
      () => onePointEnvelope({ ...point, exponent: 0.39 }),
      'An exponent of 0.39 is not that of a house.',
    ],
    [
      'one point with a steeper exponent still',
      () => onePointEnvelope({ ...point, exponent: 1.11 }),
      'An exponent of 1.11 is not that of a house.',
    ],
    [
      'one point with an uncertainty below zero',
      () => onePointEnvelope({ ...point, flowUncertainty: -1 }),
      'An uncertainty is not zero or above.',
    ],
  ])('%s is refused in words', (_what, compute, words) => {
    expect(refusalOf<unknown>(compute())).toBe(words);
  });
});

describe('the working of an envelope test', () => {
  it.each([
    [
      'six points',
      () => fitEnvelopeTest({ ...test, points: noisyHouse, volume: 20400 }),
      [
        'Baseline taken off | mean(0, 0) | Pa',
        'Pressure exponent, pressurised | least squares of ln flow on ln pressure over 8 points | 1',
        '± at 95 % | 2.447 × 0.0064 | 1',
        'Flow at 1 Pa, pressurised | least squares of ln flow on ln pressure over 8 points | cfm',
        'r², pressurised | least squares of ln flow on ln pressure over 8 points | 1',
        'Leakage at 50 Pa | 122.111 × 50^0.645 | cfm',
        'Its 95 % interval | 1519.9 × or ÷ exp(2.447 × 0.00403): 1505 to 1534.9 | cfm',
        'Effective leakage area at 4 Pa | leakage at 4 Pa × √(1.2041 / (2 × 4)) / 1 | in2',
        'Equivalent leakage area at 10 Pa, Cd 0.611 | leakage at 10 Pa × √(1.2041 / (2 × 10)) / 0.611 | in2',
        'Air changes at 50 Pa | 1519.9 × 60 / volume | 1/h',
      ],
    ],
    [
      'six points and one baseline',
      () => fitEnvelopeTest({ baselineBefore: 0, points: house }),
      [
        'Baseline taken off | 0 | Pa',
        'Pressure exponent, pressurised | least squares of ln flow on ln pressure over 6 points | 1',
        '± at 95 % | 2.776 × 0 | 1',
        'Flow at 1 Pa, pressurised | least squares of ln flow on ln pressure over 6 points | cfm',
        'r², pressurised | least squares of ln flow on ln pressure over 6 points | 1',
        'Leakage at 50 Pa | 120 × 50^0.65 | cfm',
        'Its 95 % interval | 1525.8 × or ÷ exp(2.776 × 0): 1525.8 to 1525.8 | cfm',
        'Effective leakage area at 4 Pa | leakage at 4 Pa × √(1.2041 / (2 × 4)) / 1 | in2',
        'Equivalent leakage area at 10 Pa, Cd 0.611 | leakage at 10 Pa × √(1.2041 / (2 × 10)) / 0.611 | in2',
      ],
    ],
    [
      'both directions',
      () => fitEnvelopeTest({ ...test, points: [...house, ...law(0.65, [-10, -30, -50])] }),
      [
        'Baseline taken off | mean(0, 0) | Pa',
        'Pressure exponent, depressurised | least squares of ln flow on ln pressure over 3 points | 1',
        '± at 95 % | 12.706 × 0 | 1',
        'Flow at 1 Pa, depressurised | least squares of ln flow on ln pressure over 3 points | cfm',
        'r², depressurised | least squares of ln flow on ln pressure over 3 points | 1',
        'Pressure exponent, pressurised | least squares of ln flow on ln pressure over 6 points | 1',
        '± at 95 % | 2.776 × 0 | 1',
        'Flow at 1 Pa, pressurised | least squares of ln flow on ln pressure over 6 points | cfm',
        'r², pressurised | least squares of ln flow on ln pressure over 6 points | 1',
        'Leakage at 50 Pa | mean of 120 × 50^0.65 and 120 × 50^0.65 | cfm',
        'Its 95 % interval | 1525.8 × or ÷ exp(3.182 × 0): 1525.8 to 1525.8 | cfm',
        'Effective leakage area at 4 Pa | leakage at 4 Pa × √(1.2041 / (2 × 4)) / 1 | in2',
        'Equivalent leakage area at 10 Pa, Cd 0.611 | leakage at 10 Pa × √(1.2041 / (2 × 10)) / 0.611 | in2',
      ],
    ],
    [
      'points with the air of the day',
      () => fitEnvelopeTest({ ...test, air }),
      [
        'Baseline taken off | mean(0, 0) | Pa',
        'Pressure exponent, pressurised | least squares of ln flow on ln pressure over 6 points | 1',
        '± at 95 % | 2.776 × 0 | 1',
        'Flow at 1 Pa, pressurised | least squares of ln flow on ln pressure over 6 points | cfm',
        'r², pressurised | least squares of ln flow on ln pressure over 6 points | 1',
        'From the fan to the envelope, pressurised | 1.3 / 1.2 | 1',
        'To standard air (E779), pressurised | (18.19 / 18.13 μPa·s)^(2 × 0.65 − 1) × (1.2 / 1.2041)^(1 − 0.65) | 1',
        'Leakage at 50 Pa | 129.959 × 50^0.65 | cfm',
        'Its 95 % interval | 1652.5 × or ÷ exp(2.776 × 0): 1652.5 to 1652.5 | cfm',
        'Effective leakage area at 4 Pa | leakage at 4 Pa × √(1.2041 / (2 × 4)) / 1 | in2',
        'Equivalent leakage area at 10 Pa, Cd 0.611 | leakage at 10 Pa × √(1.2041 / (2 × 10)) / 0.611 | in2',
      ],
    ],
    [
      'the same suction by the other standard',
      () =>
        fitEnvelopeTest({
          ...test,
          points: law(0.65, [-10, -20, -30, -40, -50]),
          air: { ...air, form: 'ISO 9972' },
        }),
      [
        'Baseline taken off | mean(0, 0) | Pa',
        'Pressure exponent, depressurised | least squares of ln flow on ln pressure over 5 points | 1',
        '± at 95 % | 3.182 × 0 | 1',
        'Flow at 1 Pa, depressurised | least squares of ln flow on ln pressure over 5 points | cfm',
        'r², depressurised | least squares of ln flow on ln pressure over 5 points | 1',
        'From the fan to the envelope, depressurised | 1.2 / 1.3 | 1',
        'To standard air (ISO 9972), depressurised | (1.3 / 1.204)^(1 − 0.65) | 1',
        'Leakage at 50 Pa | 113.784 × 50^0.65 | cfm',
        'Its 95 % interval | 1446.8 × or ÷ exp(3.182 × 0): 1446.8 to 1446.8 | cfm',
        'Effective leakage area at 4 Pa | leakage at 4 Pa × √(1.2041 / (2 × 4)) / 1 | in2',
        'Equivalent leakage area at 10 Pa, Cd 0.611 | leakage at 10 Pa × √(1.2041 / (2 × 10)) / 0.611 | in2',
      ],
    ],
    [
      'one point',
      () => onePointEnvelope({ ...point, pressure: -40, baselineBefore: 2 }),
      ['Leakage at 50 Pa | 1500 × (50 / 42)^0.65 | cfm'],
    ],
  ])('of %s', (_what, compute, lines) => {
    const { steps } = opened<Stepped>(compute());
    expect(steps.map(({ label, working, unit }) => `${label} | ${working} | ${unit}`)).toEqual(lines);
  });
});

describe('what is found', () => {
  it.each([
    ['a good test', () => fitEnvelopeTest(test), [] as string[]],
    [
      'wind',
      () => fitEnvelopeTest({ ...test, baselineBefore: -5.1, baselineAfter: 5.5 }),
      [
        'baseline-too-windy, invalid: The baseline before is -5.1 Pa, more than 5 Pa: wind or stack effect. Test again on a calmer day. (ISO 9972:2015, seen in an open textbook and on a checklist page)',
        'baseline-too-windy, invalid: The baseline after is 5.5 Pa, more than 5 Pa: wind or stack effect. Test again on a calmer day. (ISO 9972:2015, seen in an open textbook and on a checklist page)',
        'lowest-below-baseline, invalid: Point 1 at 9.8 Pa is less than 5 times the baseline (27.5 Pa). Leave it out or read again when it is calmer. (ISO 9972:2015, from memory)',
        'baseline-drift, remark: The baseline drifted by 10.6 Pa during the test, more than a tenth of the lowest pressure of 9.8 Pa. (common practice, no published source)',
        'stray-point, remark: Point 1 at 9.8 Pa lies 0.1 % above the line of all points, more than chance explains. Check its range and reading, and read it again. (common practice, no published source)',
      ] as string[],
    ],
    [
      'no baseline after',
      () => fitEnvelopeTest({ baselineBefore: 0, points: house }),
      [
        'no-baseline-after, remark: There is no baseline after the test, so a change of wind cannot be seen. Read it again with the fan covered. (ISO 9972:2015, seen in an open textbook and on a checklist page)',
      ] as string[],
    ],
    [
      'a sharp opening’s exponent and less',
      () => fitEnvelopeTest({ ...test, points: law(0.45, [10, 20, 30, 40, 50]) }),
      [
        'exponent-out-of-range, invalid: The points give an exponent of 0.45; a house lies between 0.5 and 1. Check the points, the ranges and the wind, then read again. (ISO 9972:2015, seen in an open textbook and on a checklist page)',
      ] as string[],
    ],
    [
      'an exponent beyond one',
      () => fitEnvelopeTest({ ...test, points: law(1.05, [10, 20, 30, 40, 50]) }),
      [
        'exponent-out-of-range, invalid: The points give an exponent of 1.05; a house lies between 0.5 and 1. Check the points, the ranges and the wind, then read again. (ISO 9972:2015, seen in an open textbook and on a checklist page)',
      ] as string[],
    ],
    [
      'four points far apart',
      () => fitEnvelopeTest({ ...test, points: law(0.65, [26, 31, 44, 48]) }),
      [
        'too-few-points, invalid: There are 4 different pressures; at least 5 are asked. (ISO 9972:2015, seen in an open textbook and on a checklist page)',
        'highest-too-low, remark: The highest pressure is 48 Pa; the flow at 50 Pa is extrapolated. Use a larger opening of the fan if there is one. (ISO 9972:2015, seen in an open textbook and on a checklist page)',
        'narrow-range, remark: The lowest pressure is 26 Pa; points down to about 10 Pa make the exponent surer. (common practice, no published source)',
        'step-too-large, remark: Two neighbouring points lie 13 Pa apart; about 10 Pa is asked. Add a point between. (ISO 9972:2015, seen in an open textbook and on a checklist page)',
      ] as string[],
    ],
    [
      'a lowest point too near the baseline',
      () => fitEnvelopeTest({ ...test, baselineBefore: 2.5, baselineAfter: 2.5, points: moved(2.5) }),
      [
        'lowest-below-baseline, invalid: Point 1 at 10 Pa is less than 5 times the baseline (12.5 Pa). Leave it out or read again when it is calmer. (ISO 9972:2015, from memory)',
      ] as string[],
    ],
    [
      'a baseline that drifted',
      () => fitEnvelopeTest({ ...test, baselineBefore: -0.8, baselineAfter: 0.8 }),
      [
        'baseline-drift, remark: The baseline drifted by 1.6 Pa during the test, more than a tenth of the lowest pressure of 10 Pa. (common practice, no published source)',
      ] as string[],
    ],
    [
      'a baseline after that is the larger',
      () => fitEnvelopeTest({ ...test, baselineBefore: 0, baselineAfter: -3, points: moved(-1.5) }),
      [
        'lowest-below-baseline, invalid: Point 1 at 10 Pa is less than 5 times the baseline (15 Pa). Leave it out or read again when it is calmer. (ISO 9972:2015, from memory)',
        'baseline-drift, remark: The baseline drifted by -3 Pa during the test, more than a tenth of the lowest pressure of 10 Pa. (common practice, no published source)',
      ] as string[],
    ],
    [
      'a point too high',
      () =>
        fitEnvelopeTest({
          ...test,
          points: noisyHouse.map((each, i) => (i === 3 ? { ...each, flow: each.flow * 1.1 } : each)),
        }),
      [
        'stray-point, remark: Point 4 at 35.5 Pa lies 9.5 % above the line of all points, more than chance explains. Check its range and reading, and read it again. (common practice, no published source)',
      ] as string[],
    ],
    [
      'directions that differ',
      () =>
        fitEnvelopeTest({
          ...test,
          points: [
            ...noisyHouse,
            ...noisyHouse.map(({ pressure, flow }) => ({ pressure: -pressure, flow: flow * 1.2 })),
          ],
        }),
      [
        'directions-differ, remark: The directions differ: 1824 cfm depressurised, 1520 cfm pressurised at 50 Pa. A damper or flap may open one way; the mean of both counts. (common practice, no published source)',
      ] as string[],
    ],
  ])('of %s', (_what, compute, wanted) => {
    const { findings } = opened<{ findings: Finding[] }>(compute());
    const said = findings.map((each) => `${each.code}, ${each.severity}: ${each.message} (${each.source})`);
    expect(said).toEqual(wanted);
  });
});

describe('what has to be known of one point', () => {
  it.each([
    [
      'a test at 50 Pa with the usual exponent',
      () => onePointEnvelope(point),
      ['exponent 0.65 assumed'] as string[],
    ],
    [
      'a test at 40 Pa with an exponent of its own',
      () => onePointEnvelope({ ...point, pressure: 40, exponent: 0.6 }),
      ['taken from 40 Pa'] as string[],
    ],
    [
      'a test half a pascal off',
      () => onePointEnvelope({ ...point, pressure: 49.5, exponent: 0.65 }),
      [] as string[],
    ],
    [
      'a test a little more than that off',
      () => onePointEnvelope({ ...point, pressure: 49.4, exponent: 0.65 }),
      ['taken from 49.4 Pa'] as string[],
    ],
  ])('of %s', (_what, compute, remarks) => {
    expect(opened<{ remarks: string[] }>(compute()).remarks).toEqual(remarks);
  });
});
