import { describe, expect, it } from 'vitest';
import { opened, refusalOf } from '../testing/opened.ts';
import type { WorkingLine } from '../working/worked.ts';
import { withinChargeTolerance } from './tolerance.ts';
import { type ChargeByPlate, chargeByWeight, gradeChargeByWeight } from './weigh-in.ts';
import { seen } from '../working/figure-source.ts';

const plate: ChargeByPlate = {
  factoryCharge: 96,
  includedLength: 15,
  installedLength: 40,
  perFoot: 0.6,
  removeWhenShorter: true,
};
const split = { method: 'temperature-split', by: 'rater', measured: 17, target: 20 } as const;
const own = { gradeI: { low: -3, high: 3 }, gradeII: null, unit: '%', source: seen('the company’s own') };

type Stepped = { steps: WorkingLine[] };

describe('a charge that cannot be', () => {
  it.each([
    [
      'a factory charge of nothing',
      () => chargeByWeight({ ...plate, factoryCharge: 0 }),
      'The factory charge is 0 oz; it must be above zero.',
    ],
    [
      'a line set of less than nothing',
      () => chargeByWeight({ ...plate, includedLength: -1 }),
      'The length of line set included is -1 ft; it must be zero or more.',
    ],
    [
      'an installed length that is no number',
      () => chargeByWeight({ ...plate, installedLength: NaN }),
      'The length of line set installed is NaN ft; it must be zero or more.',
    ],
    [
      'a charge per foot below zero',
      () => chargeByWeight({ ...plate, perFoot: -0.6 }),
      'The charge for each foot is -0.6 oz/ft; it must be zero or more.',
    ],
    [
      'an endless correction',
      () => chargeByWeight({ ...plate, otherCorrection: Infinity }),
      'The other correction is Infinity oz; it must be a number.',
    ],
    [
      'a correction that takes it all',
      () => chargeByWeight({ ...plate, otherCorrection: -111 }),
      'The corrections leave 0 oz of charge.',
    ],
    [
      'a correction that takes more than all',
      () => chargeByWeight({ ...plate, otherCorrection: -112.5 }),
      'The corrections leave -1.5 oz of charge.',
    ],
    [
      'a weighed charge below zero',
      () => gradeChargeByWeight(-1, 100),
      'The weighed charge is -1 oz; it must be zero or more.',
    ],
    [
      'an expected charge of nothing',
      () => gradeChargeByWeight(90, 0),
      'The expected charge is 0 oz; it must be above zero.',
    ],
    [
      'a grade without the company’s tolerance',
      () => gradeChargeByWeight(90, 100),
      'No tolerance for a weighed charge was seen; the company has to set its own first.',
    ],
    [
      'a charge test that nobody knows',
      () => withinChargeTolerance({ ...split, method: 'weight' as 'temperature-split' }),
      'The charge test is "weight", which is not known here; there is superheat-fixed-metering, subcooling-expansion-valve, superheat-expansion-valve, temperature-split.',
    ],
    [
      'somebody who is neither installer nor rater',
      () => withinChargeTolerance({ ...split, by: 'builder' as 'rater' }),
      'Who measured is "builder", which is not known here; there is installer, rater.',
    ],
    [
      'a reading that is no number',
      () => withinChargeTolerance({ ...split, measured: NaN }),
      'The measured temperature difference is NaN °F; it must be a number.',
    ],
    [
      'a target that is missing',
      () => withinChargeTolerance({ method: 'temperature-split', by: 'rater', measured: 17 }),
      'The target is NaN °F; it must be a number.',
    ],
  ])('%s is refused in words', (_what, compute, words) => {
    expect(refusalOf<unknown>(compute())).toBe(words);
  });
});

describe('the working of a charge', () => {
  it.each([
    [
      'a longer line set',
      () => chargeByWeight({ ...plate, otherCorrection: 4 }),
      ['For the line set | (40 − 15) × 0.6 | oz', 'Charge by plate and line set | 96 + (15) + (4) | oz'],
    ],
    [
      'a shorter line set, nothing taken off',
      () => chargeByWeight({ ...plate, installedLength: 5, removeWhenShorter: false }),
      [
        'For the line set | max(0, (5 − 15) × 0.6) | oz',
        'Charge by plate and line set | 96 + (0) + (0) | oz',
      ],
    ],
    [
      'a weighed charge',
      () => gradeChargeByWeight(103, 100, own),
      ['Weighed charge’s deviation | (103 − 100) / 100 × 100 | %'],
    ],
    ['a temperature split', () => withinChargeTolerance(split), ['Deviation from the target | 17 − 20 | °F']],
    [
      'the superheat of an expansion valve',
      () => withinChargeTolerance({ method: 'superheat-expansion-valve', by: 'installer', measured: 9 }),
      ['Superheat | 9 | °F'],
    ],
  ])('of %s', (_what, compute, lines) => {
    const { steps } = opened<Stepped>(compute());
    expect(steps.map(({ label, working, unit }) => `${label} | ${working} | ${unit}`)).toEqual(lines);
  });
});
