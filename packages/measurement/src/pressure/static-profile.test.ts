import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { opened, refusedWith } from '../testing/opened.ts';
import { staticProfile, type StaticReadings } from './static-profile.ts';

const furnace: StaticReadings = {
  returnBeforeFilter: -0.1,
  returnAfterFilter: -0.25,
  supplyBeforeCoil: 0.3,
  supplyAfterCoil: 0.12,
  coilOutside: true,
  ratedMaximum: 0.5,
};
const handler: StaticReadings = { returnAfterFilter: -0.2, supplyAfterCoil: 0.25, coilOutside: false };

function drops(readings: StaticReadings) {
  return Object.fromEntries(
    opened(staticProfile(readings)).drops.map(({ part, value }) => [part, Number(value.toFixed(9))]),
  );
}

describe('static pressure along the air’s way', () => {
  // The differences are computed by hand.
  it('of a furnace with its coil outside: total from the coil’s entry, four drops', () => {
    const found = opened(staticProfile(furnace));
    expect(found.total.value).toBeCloseTo(0.55, 9);
    expect(found.total).toMatchObject({ unit: 'inH2O', steps: [{ working: '0.3 − (-0.25)' }] });
    expect(drops(furnace)).toEqual({ 'return-ducts': 0.1, filter: 0.15, coil: 0.18, 'supply-ducts': 0.12 });
    expect(found.shareOfRated?.value).toBeCloseTo(110, 9);
    expect(found.shareOfRated?.steps.at(-1)?.working).toBe('0.55 / 0.5 × 100');
    expect(found.drops[1]?.shareOfTotal).toBeCloseTo((0.15 / 0.55) * 100, 9);
  });

  it('of an air handler with its coil inside: total from the supply duct', () => {
    const found = opened(staticProfile(handler));
    expect(found.total.value).toBeCloseTo(0.45, 9);
    expect(found.shareOfRated).toBeNull();
    expect(drops(handler)).toEqual({ 'return-side': 0.2, 'supply-ducts': 0.25 });
    // A reading inside the cabinet is no part of the external static pressure.
    expect(drops({ ...handler, supplyBeforeCoil: 0.6 })).toEqual({
      'return-side': 0.2,
      'supply-ducts': 0.25,
    });
  });

  it('gives together what one reading cannot part', () => {
    expect(drops({ ...furnace, supplyAfterCoil: null, returnBeforeFilter: null })).toEqual({
      'return-side': 0.25,
      'supply-side': 0.3,
    });
  });

  it('has drops that add up to the total and shares that add up to 100 %', () => {
    const part = fc.double({ min: 0.01, max: 0.4, noNaN: true });
    fc.assert(
      fc.property(part, part, part, part, fc.boolean(), (ducts, filter, coil, supply, parted) => {
        const found = opened(
          staticProfile({
            returnBeforeFilter: parted ? -ducts : null,
            returnAfterFilter: -ducts - filter,
            supplyBeforeCoil: coil + supply,
            supplyAfterCoil: parted ? supply : null,
            coilOutside: true,
          }),
        );
        const sum = found.drops.reduce((all, { value }) => all + value, 0);
        expect(sum).toBeCloseTo(found.total.value, 9);
        expect(found.drops.reduce((all, { shareOfTotal }) => all + shareOfTotal, 0)).toBeCloseTo(100, 7);
        expect(found.drops).toHaveLength(parted ? 4 : 2);
      }),
    );
  });

  it('lets a part that takes nothing be, and says units and words', () => {
    expect(drops({ ...furnace, returnBeforeFilter: -0.25 })).toMatchObject({ filter: 0 });
    const found = opened(staticProfile(furnace));
    expect(found.total.steps).toMatchObject([{ label: 'Total external static pressure', unit: 'inH2O' }]);
    expect(found.shareOfRated).toMatchObject({ unit: '%' });
    expect(found.shareOfRated?.steps.at(-1)).toMatchObject({
      label: 'Share of the rated maximum',
      unit: '%',
    });
    const words = (readings: Partial<StaticReadings>) => {
      const given = staticProfile({ ...furnace, ...readings });
      return given.ok ? '' : given.problem.message;
    };
    expect(words({ supplyBeforeCoil: null })).toBe(
      'Without the pressure before the coil, where the air leaves the equipment, there is no total.',
    );
    expect(words({ supplyAfterCoil: null, coilOutside: false })).toContain(
      'the pressure in the supply duct,',
    );
    expect(words({ supplyAfterCoil: 0.4 })).toContain(
      'only the blower can do. Check the probes and the ports.',
    );
    expect(words({ returnAfterFilter: NaN })).toBe(
      'The pressure after the filter is NaN in. w.c.; it must be a number.',
    );
    expect(words({ supplyAfterCoil: NaN })).toBe(
      'The pressure in the supply duct is NaN in. w.c.; it must be a number.',
    );
    expect(words({ ratedMaximum: 0 })).toBe('The rated maximum is 0 in. w.c.; it must be above zero.');
  });

  it('carries the uncertainties of its stations', () => {
    const uncertainties = { returnBeforeFilter: 0.003, returnAfterFilter: 0.003, supplyBeforeCoil: 0.004 };
    const found = opened(staticProfile({ ...furnace, uncertainties }));
    expect(found.total.standardUncertainty).toBeCloseTo(0.005, 9);
    expect(found.total.expandedUncertainty).toBeCloseTo(0.01, 9);
    expect(found.shareOfRated?.standardUncertainty).toBeCloseTo(1, 9);
    const by = Object.fromEntries(found.drops.map((drop) => [drop.part, drop.standardUncertainty]));
    expect(by['return-ducts']).toBeCloseTo(0.003, 9);
    expect(by['filter']).toBeCloseTo(Math.hypot(0.003, 0.003), 9);
    expect(by['coil']).toBeNull();
    expect(opened(staticProfile(furnace)).total.standardUncertainty).toBeNull();
  });

  it('refuses swapped probes, what raises the pressure, and what is missing', () => {
    expect(refusedWith(staticProfile({ ...furnace, returnAfterFilter: 0.2 }))).toBe(
      'swapped at returnAfterFilter',
    );
    expect(refusedWith(staticProfile({ ...furnace, supplyBeforeCoil: -0.2 }))).toBe(
      'swapped at supplyBeforeCoil',
    );
    expect(refusedWith(staticProfile({ ...furnace, supplyAfterCoil: 0 }))).toBe('swapped at supplyAfterCoil');
    expect(refusedWith(staticProfile({ ...furnace, returnBeforeFilter: 0.1 }))).toBe(
      'swapped at returnBeforeFilter',
    );
    expect(staticProfile({ ...furnace, returnAfterFilter: 0.2 })).toMatchObject({
      problem: { message: expect.stringContaining('below zero on the return side') },
    });
    expect(staticProfile({ ...furnace, supplyAfterCoil: -0.1 })).toMatchObject({
      problem: { message: expect.stringContaining('above zero on the supply side') },
    });
    expect(refusedWith(staticProfile({ ...furnace, supplyAfterCoil: 0.4 }))).toBe('wrong-order at coil');
    expect(refusedWith(staticProfile({ ...furnace, returnBeforeFilter: -0.3 }))).toBe(
      'wrong-order at filter',
    );
    expect(staticProfile({ ...furnace, supplyAfterCoil: 0.4 })).toMatchObject({
      problem: { message: expect.stringContaining('The coil would raise the pressure by 0.1 in. w.c.') },
    });
    expect(refusedWith(staticProfile({ ...furnace, supplyBeforeCoil: null }))).toBe(
      'missing at supplyBeforeCoil',
    );
    expect(refusedWith(staticProfile({ returnAfterFilter: -0.2, coilOutside: false }))).toBe(
      'missing at supplyAfterCoil',
    );
    expect(refusedWith(staticProfile({ ...furnace, returnAfterFilter: NaN }))).toBe(
      'not-a-number at returnAfterFilter',
    );
    expect(refusedWith(staticProfile({ ...furnace, supplyAfterCoil: Infinity }))).toBe(
      'not-a-number at supplyAfterCoil',
    );
    expect(refusedWith(staticProfile({ ...furnace, ratedMaximum: 0 }))).toBe(
      'not-above-zero at ratedMaximum',
    );
    expect(refusedWith(staticProfile({ ...furnace, uncertainties: { supplyAfterCoil: -1 } }))).toBe(
      'bad-uncertainty at uncertainties.supplyAfterCoil',
    );
  });
});
