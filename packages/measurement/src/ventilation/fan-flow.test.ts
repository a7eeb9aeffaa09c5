import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { opened, refusedWith } from '../testing/opened.ts';
import { propagate } from '../uncertainty/propagate.ts';
import { type CreditCase, requiredFanFlow } from './fan-flow.ts';
import { infiltrationInchPound } from './infiltration.ts';
import { requiredRateInchPound } from './required-rate.ts';

const cfm = (value: number, standardUncertainty: number | null = null) =>
  ({ value, form: 'inch-pound', standardUncertainty }) as const;
const house: CreditCase = {
  edition: '2019',
  total: cfm(102),
  infiltration: cfm(50.1176),
  balanced: false,
  newConstruction: true,
};
const editions = fc.constantFrom('2013', '2016', '2019', '2022');

describe('required fan flow', () => {
  // Equation 4-2 as in a public code's docstring; 0.491349, 77.3748 and 51.8824 computed independently.
  it('is 77.3748 cfm unbalanced and 51.8824 balanced by 62.2-2019', () => {
    const total = opened(requiredRateInchPound({ edition: '2019', floorArea: 2400, bedrooms: 3 }));
    const infiltration = opened(infiltrationInchPound({ leakageAt50: 1200, weatherFactor: 0.6, height: 17 }));
    const unbalanced = opened(requiredFanFlow({ ...house, total, infiltration }));
    expect(unbalanced.value).toBeCloseTo(77.3748, 4);
    expect(unbalanced.phi).toBeCloseTo(0.491349, 5);
    expect(unbalanced.credit).toBeCloseTo(102 - 77.3748, 4);
    expect(unbalanced).toMatchObject({ capped: false, unit: 'cfm', form: 'inch-pound', remarks: [] });
    expect(unbalanced.equation).toBe('ASHRAE 62.2-2019, Equation 4-2 (inch-pound)');
    const balanced = opened(
      requiredFanFlow({ ...house, edition: '2022', total, infiltration, balanced: true }),
    );
    expect(balanced.value).toBeCloseTo(51.8824, 4);
    expect(balanced.phi).toBe(1);
  });

  // 102 − 30 = 72: an equipment maker's primer on 62.2-2013 (seen, address withheld).
  it('is 72 cfm for 102 and 30 in the form of 2013, balanced or not', () => {
    for (const edition of ['2013', '2016'] as const)
      for (const balanced of [true, false]) {
        const found = opened(requiredFanFlow({ ...house, edition, balanced, infiltration: cfm(30) }));
        expect(found).toMatchObject({ value: 72, phi: 1, credit: 30 });
        expect(found.equation).toBe(`ASHRAE 62.2-${edition}, 4.1.2, from memory (inch-pound)`);
        expect(found.steps.map(({ working }) => working)).toEqual(['1 × 30 × 1', 'max(0, 102 − 30)']);
      }
  });

  // Two thirds: the same primer.
  it('credits a new house with two thirds of the total at most, an existing one with all', () => {
    const tight = { ...house, edition: '2013', infiltration: cfm(90) } as const;
    const found = opened(requiredFanFlow(tight));
    expect(found.value).toBeCloseTo(34, 9);
    expect(found.capped).toBe(true);
    expect(found.remarks[0]).toContain('two thirds');
    expect(found.steps[0]).toMatchObject({ label: 'Infiltration counted', working: '2/3 × 102', value: 68 });
    expect(opened(requiredFanFlow({ ...tight, newConstruction: false }))).toMatchObject({
      value: 12,
      capped: false,
    });
    expect(opened(requiredFanFlow({ ...tight, infiltration: cfm(68) })).capped).toBe(false);
  });

  it('cuts the infiltration before phi: unbalanced in 2019 four ninths are credited', () => {
    const found = opened(requiredFanFlow({ ...house, infiltration: cfm(90) }));
    expect(found.value).toBeCloseTo((102 * 5) / 9, 9);
    expect(found.phi).toBeCloseTo(2 / 3, 9);
    expect(found.steps.map(({ label }) => label)).toEqual([
      'Infiltration counted',
      'Factor for an unbalanced system',
      'Infiltration credit',
      'Required fan flow',
    ]);
  });

  it('counts only the share of the envelope that borders on outdoors', () => {
    const found = opened(
      requiredFanFlow({ ...house, balanced: true, infiltration: cfm(40), exteriorShare: 0.5 }),
    );
    expect(found).toMatchObject({ value: 82, credit: 20 });
    expect(found.steps[0]?.working).toBe('1 × 40 × 0.5');
  });

  it('weighs an unbalanced system the same in 2022', () => {
    const found = opened(requiredFanFlow({ ...house, edition: '2022', infiltration: cfm(51) }));
    expect(found).toMatchObject({ phi: 0.5, credit: 25.5, value: 76.5 });
    expect(found.equation).toBe('ASHRAE 62.2-2022, Equation 4-2 (inch-pound)');
    expect(found.steps[0]).toMatchObject({ working: '51 / 102', unit: '1' });
  });

  it('says in words what is wrong', () => {
    const words = (how: Partial<CreditCase>) => {
      const found = requiredFanFlow({ ...house, ...how });
      return found.ok ? '' : found.problem.message;
    };
    expect(words({ total: cfm(0) })).toBe('The total rate is 0 cfm; it must be above zero.');
    expect(words({ infiltration: cfm(-1) })).toBe('The infiltration is -1 cfm; it must be zero or more.');
    expect(words({ exteriorShare: 2 })).toBe(
      'The share of the envelope that borders on outdoors is 2; it must be above 0 and at most 1.',
    );
    expect(words({ edition: '2010' as '2013' })).toContain(
      'The edition of ASHRAE 62.2 with an infiltration credit is "2010"',
    );
    expect(words({ edition: '2013', exteriorShare: 0.5 })).toContain('take the total rate');
    expect(words({ infiltration: { value: 1, form: 'si' } })).toContain(
      'of the inch-pound form, the infiltration of the si',
    );
  });

  it('never falls below zero', () => {
    const leaky = { ...house, edition: '2016', newConstruction: false, infiltration: cfm(150) } as const;
    const found = opened(requiredFanFlow(leaky));
    expect(found.value).toBe(0);
    expect(found.remarks[0]).toContain('infiltration alone');
    expect(opened(requiredFanFlow({ ...leaky, infiltration: cfm(102) })).remarks).toHaveLength(1);
  });

  it('never mixes the forms', () => {
    const mixed = requiredFanFlow({ ...house, infiltration: { value: 20, form: 'si' } });
    expect(refusedWith(mixed)).toBe('mixed-forms at infiltration.form');
    expect(mixed).toMatchObject({ problem: { message: expect.stringContaining('1 to 2 %') } });
    const si = {
      ...house,
      total: { value: 48, form: 'si' },
      infiltration: { value: 20, form: 'si' },
    } as const;
    expect(opened(requiredFanFlow({ ...si, balanced: true }))).toMatchObject({
      value: 28,
      unit: 'L/s',
      form: 'si',
    });
  });

  it('asks for more with less infiltration and lies between zero and the total', () => {
    fc.assert(
      fc.property(
        editions,
        fc.boolean(),
        fc.boolean(),
        fc.double({ min: 20, max: 300, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.double({ min: 1, max: 1.5, noNaN: true }),
        (edition, balanced, newConstruction, total, leaks, more) => {
          const at = (flow: number) =>
            opened(
              requiredFanFlow({
                edition,
                balanced,
                newConstruction,
                total: cfm(total),
                infiltration: cfm(flow),
              }),
            );
          const found = at(leaks);
          expect(found.value).toBeGreaterThanOrEqual(0);
          expect(found.value).toBeLessThanOrEqual(total);
          expect(at(leaks * more).value).toBeLessThanOrEqual(found.value + 1e-9);
          if (newConstruction) expect(found.value).toBeGreaterThanOrEqual(total / 3 - 1e-9);
          expect(found.steps.at(-1)?.value).toBe(found.value);
        },
      ),
    );
  });

  it.each([
    ['unbalanced', { balanced: false }, 50],
    ['balanced', { balanced: true }, 50],
    ['unbalanced and cut', { balanced: false }, 90],
    ['balanced and cut', { balanced: true }, 90],
    ['attached', { balanced: false, exteriorShare: 0.6 }, 50],
    ['attached and cut', { balanced: true, exteriorShare: 0.6 }, 90],
  ])('propagates the uncertainties as differences do, %s', (_, how, leaks) => {
    const flow = ([total = 1, infiltration = 0]: readonly number[]) => {
      const counted = Math.min(infiltration, (2 / 3) * total);
      const share = 'exteriorShare' in how ? (how.exteriorShare ?? 1) : 1;
      return total - (how.balanced ? 1 : counted / total) * counted * share;
    };
    const inputs = [
      { value: 102, u: 2 },
      { value: leaks, u: 4 },
    ];
    const found = opened(
      requiredFanFlow({ ...house, ...how, total: cfm(102, 2), infiltration: cfm(leaks, 4) }),
    );
    expect(found.standardUncertainty).toBeCloseTo(opened(propagate(flow, inputs)).standardUncertainty, 5);
    expect(opened(requiredFanFlow({ ...house, total: cfm(102, 2) })).standardUncertainty).toBeNull();
  });

  it('refuses what cannot be', () => {
    expect(refusedWith(requiredFanFlow({ ...house, edition: '2010' as '2013' }))).toBe(
      'unknown-choice at edition',
    );
    expect(refusedWith(requiredFanFlow({ ...house, edition: '2013', exteriorShare: 0.5 }))).toBe(
      'no-credit at exteriorShare',
    );
    for (const exteriorShare of [0, -1, 1.1, NaN])
      expect(refusedWith(requiredFanFlow({ ...house, exteriorShare }))).toBe('bad-share at exteriorShare');
    expect(refusedWith(requiredFanFlow({ ...house, total: cfm(0) }))).toBe('not-above-zero at total');
    expect(refusedWith(requiredFanFlow({ ...house, infiltration: cfm(-1) }))).toBe(
      'below-zero at infiltration',
    );
    expect(refusedWith(requiredFanFlow({ ...house, infiltration: cfm(1, -1) }))).toBe(
      'bad-uncertainty at uncertainties.infiltration',
    );
    expect(refusedWith(requiredFanFlow({ ...house, infiltration: { value: 1, form: 'x' as 'si' } }))).toBe(
      'unknown-choice at infiltration.form',
    );
    expect(opened(requiredFanFlow({ ...house, infiltration: cfm(0) })).value).toBe(102);
  });
});
