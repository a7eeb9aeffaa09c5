import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { opened, refusedWith } from '../testing/opened.ts';
import { worstCaseDepressurization } from './worst-case.ts';

const setUps = [
  { name: 'exhaust fans', pressure: -3, standardUncertainty: 0.3 },
  { name: 'exhaust fans and air handler, zone door closed', pressure: -5.5, standardUncertainty: 0.4 },
  { name: 'air handler, zone door open', pressure: 0.5, standardUncertainty: 0.3 },
];

describe('worst-case depressurization', () => {
  // Computed by hand: −5.5 less the mean of −1 and −2.
  it('takes the lowest set-up less the mean baseline', () => {
    const found = opened(
      worstCaseDepressurization({ baselines: [-1, -2], baselineUncertainty: 0.3, setUps }),
    );
    expect(found).toMatchObject({
      value: 4,
      unit: 'Pa',
      netPressure: -4,
      setUp: 'exhaust fans and air handler, zone door closed',
      baselineDrift: 1,
      remarks: [],
    });
    expect(found.standardUncertainty).toBeCloseTo(0.5, 9);
    expect(found.steps.map(({ working }) => working)).toEqual([
      '((-1) + (-2)) / 2',
      '-1.5 − (-5.5), exhaust fans and air handler, zone door closed',
    ]);
  });

  it('keeps one baseline as it is', () => {
    const found = opened(worstCaseDepressurization({ baselines: [-1], setUps }));
    expect(found.value).toBe(4.5);
    expect(found.steps[0]?.working).toBe('(-1)');
    expect(found.standardUncertainty).toBeNull();
  });

  it('says when nothing pulled the zone down, and when the wind decides', () => {
    const up = opened(worstCaseDepressurization({ baselines: [-1], setUps: [{ name: 'fan', pressure: 1 }] }));
    expect(up).toMatchObject({ value: -2, netPressure: 2 });
    expect(up.remarks).toEqual(['no set-up pulled the zone below its baseline']);
    const even = opened(
      worstCaseDepressurization({ baselines: [-1], setUps: [{ name: 'fan', pressure: -1 }] }),
    );
    expect(Object.is(even.netPressure, 0)).toBe(true);
    expect(even.remarks).toHaveLength(1);
    const windy = opened(worstCaseDepressurization({ baselines: [0, -2.5], setUps }));
    expect(windy.remarks).toEqual(['the baselines are 2.5 Pa apart: wait for less wind']);
    expect(opened(worstCaseDepressurization({ baselines: [0, -2], setUps })).remarks).toEqual([]);
  });

  it('takes the first of equals', () => {
    const equal = [
      { name: 'a', pressure: -2 },
      { name: 'b', pressure: -2 },
    ];
    expect(opened(worstCaseDepressurization({ baselines: [0], setUps: equal })).setUp).toBe('a');
  });

  it('does not depend on the order or on a pressure that all readings share', () => {
    const pressure = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(pressure, { minLength: 1, maxLength: 8 }),
        pressure,
        pressure,
        (found, baseline, shift) => {
          const value = (pressures: number[], base: number) =>
            opened(
              worstCaseDepressurization({
                baselines: [base],
                setUps: pressures.map((one, index) => ({ name: String(index), pressure: one })),
              }),
            ).value;
          const here = value(found, baseline);
          expect(value([...found].reverse(), baseline)).toBe(here);
          expect(
            value(
              found.map((one) => one + shift),
              baseline + shift,
            ),
          ).toBeCloseTo(here, 9);
          expect(value([...found, 30], baseline)).toBe(here);
        },
      ),
    );
  });

  it('refuses what cannot be', () => {
    expect(refusedWith(worstCaseDepressurization({ baselines: [], setUps }))).toBe('missing at baselines');
    expect(refusedWith(worstCaseDepressurization({ baselines: [0], setUps: [] }))).toBe('missing at setUps');
    expect(refusedWith(worstCaseDepressurization({ baselines: [0, NaN], setUps }))).toBe(
      'not-a-number at baselines.1',
    );
    expect(
      refusedWith(worstCaseDepressurization({ baselines: [0], setUps: [{ name: 'fan', pressure: NaN }] })),
    ).toBe('not-a-number at setUps.0');
    expect(refusedWith(worstCaseDepressurization({ baselines: [0], baselineUncertainty: -1, setUps }))).toBe(
      'bad-uncertainty at uncertainties.baseline',
    );
    const odd = [{ name: 'fan', pressure: 1, standardUncertainty: -1 }];
    expect(refusedWith(worstCaseDepressurization({ baselines: [0], setUps: odd }))).toBe(
      'bad-uncertainty at uncertainties.fan',
    );
  });
});
