import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { opened, refusedWith } from '../testing/opened.ts';
import { propagate } from '../uncertainty/propagate.ts';
import { airstreamBalance } from './balance.ts';
import { needsMechanicalVentilation, rateForBalancedAndDistributed } from './code-rules.ts';
import { infiltrationCredit2010, localExhaustDeficit } from './deficit.ts';
import { leastExhaust } from './local-exhaust.ts';

describe('least exhaust', () => {
  // https://constructioninstruction.com/term/ashrae-62-2/ (seen)
  it.each([
    ['kitchen', 'on-demand', 100],
    ['kitchen', 'continuous', 25],
    ['bath', 'on-demand', 50],
    ['bath', 'continuous', 20],
  ] as const)('of a %s, %s, is %s cfm', (room, mode, cfm) => {
    expect(opened(leastExhaust({ room, mode }))).toMatchObject({
      value: cfm,
      unit: 'cfm',
      standardUncertainty: 0,
      source: { confirmed: true },
      steps: [{ working: `${room}, ${mode}` }],
    });
  });

  // 5 air changes: a fan maker's page (address withheld) (seen); 100 and 80 computed.
  it.each([
    [1200, 100],
    [960, 80],
  ])('of a continuous kitchen of %s ft³ by 62.2 is %s cfm', (volume, cfm) => {
    const kitchen = { room: 'kitchen', mode: 'continuous', basis: '62.2', volume } as const;
    const found = opened(leastExhaust({ ...kitchen, uncertainties: { volume: 12 } }));
    expect(found.value).toBeCloseTo(cfm, 9);
    expect(found.standardUncertainty).toBeCloseTo(1, 9);
    expect(found.steps[0]?.working).toBe(`5 × ${volume} / 60`);
    expect(found.source.citation).toContain('address withheld');
    expect(opened(leastExhaust(kitchen)).standardUncertainty).toBeNull();
  });

  it('leaves on-demand kitchens and baths to their constants under 62.2', () => {
    expect(opened(leastExhaust({ room: 'kitchen', mode: 'on-demand', basis: '62.2' })).value).toBe(100);
    expect(opened(leastExhaust({ room: 'bath', mode: 'continuous', basis: '62.2' })).value).toBe(20);
  });

  it('refuses what cannot be', () => {
    const kitchen = { room: 'kitchen', mode: 'continuous', basis: '62.2' } as const;
    expect(refusedWith(leastExhaust(kitchen))).toBe('missing at volume');
    expect(refusedWith(leastExhaust({ ...kitchen, volume: 0 }))).toBe('not-above-zero at volume');
    expect(refusedWith(leastExhaust({ ...kitchen, room: 'hall' as 'bath' }))).toBe('unknown-choice at room');
    expect(refusedWith(leastExhaust({ ...kitchen, mode: 'x' as 'continuous' }))).toBe(
      'unknown-choice at mode',
    );
    expect(refusedWith(leastExhaust({ ...kitchen, basis: 'x' as 'irc' }))).toBe('unknown-choice at basis');
    expect(refusedWith(leastExhaust({ ...kitchen, uncertainties: { volume: -1 } }))).toBe(
      'bad-uncertainty at uncertainties.volume',
    );
  });
});

describe('deficit of local exhaust', () => {
  // A kitchen of 50 and two baths of 25: published example, its part computed independently (100 / 4).
  it('is 25 cfm for a kitchen of 50 and two baths of 25', () => {
    const rooms = [
      { room: 'kitchen', flow: 50, standardUncertainty: 8 },
      { room: 'bath', flow: 25, standardUncertainty: 4 },
      { room: 'bath', flow: 25, standardUncertainty: 4 },
    ] as const;
    const found = opened(localExhaustDeficit(rooms));
    expect(found).toMatchObject({ value: 25, unit: 'cfm', steps: [{ working: '(50 + 25 + 25) / 4' }] });
    expect(found.standardUncertainty).toBeCloseTo(Math.sqrt(64 + 16 + 16) / 4, 9);
  });

  it('is not made up for by another room', () => {
    const rooms = [
      { room: 'kitchen', flow: 400, standardUncertainty: 5 },
      { room: 'bath', flow: 30, standardUncertainty: 4 },
    ] as const;
    expect(opened(localExhaustDeficit(rooms))).toMatchObject({ value: 5, standardUncertainty: 1 });
    expect(opened(localExhaustDeficit([{ room: 'bath', flow: 50 }]))).toMatchObject({
      value: 0,
      standardUncertainty: null,
    });
    expect(opened(localExhaustDeficit([]))).toMatchObject({ value: 0, standardUncertainty: 0 });
  });

  it('refuses what cannot be', () => {
    expect(refusedWith(localExhaustDeficit([{ room: 'bath', flow: -1 }]))).toBe('below-zero at rooms.0.flow');
    expect(refusedWith(localExhaustDeficit([{ room: 'bath', flow: 1, standardUncertainty: -1 }]))).toBe(
      'bad-uncertainty at uncertainties.rooms.0.flow',
    );
  });
});

describe('credit for infiltration in an existing house, 2010', () => {
  it('is half of what exceeds 2 cfm per 100 ft²', () => {
    const found = opened(infiltrationCredit2010(74, 1800, 4));
    expect(found).toMatchObject({ value: 19, standardUncertainty: 2 });
    expect(found.steps[0]?.working).toBe('max(0, (74 − 0.02 × 1800) / 2)');
    expect(opened(infiltrationCredit2010(20, 1800))).toMatchObject({ value: 0, standardUncertainty: null });
    expect(refusedWith(infiltrationCredit2010(-1, 1800))).toBe('below-zero at infiltration');
    expect(refusedWith(infiltrationCredit2010(1, NaN))).toBe('below-zero at floorArea');
    expect(refusedWith(infiltrationCredit2010(1, 1, -1))).toBe(
      'bad-uncertainty at uncertainties.infiltration',
    );
  });
});

describe('balance of two airstreams', () => {
  it('is the larger over the smaller less one: 88 and 80 are 10 % apart', () => {
    const found = opened(airstreamBalance({ supply: 80, exhaust: 88 }));
    expect(found.value).toBeCloseTo(10, 9);
    expect(found).toMatchObject({ net: -8, smaller: 'supply', unit: '%', standardUncertaintyOfNet: null });
    expect(found.steps[0]?.working).toBe('(88 − 80) / 80 × 100');
    expect(opened(airstreamBalance({ supply: 88, exhaust: 80 }))).toMatchObject({
      net: 8,
      smaller: 'exhaust',
    });
    expect(opened(airstreamBalance({ supply: 80, exhaust: 80 }))).toMatchObject({
      value: 0,
      net: 0,
      smaller: 'equal',
    });
  });

  it('is the same with the streams swapped or in another unit', () => {
    const flows = fc.double({ min: 1, max: 500, noNaN: true });
    fc.assert(
      fc.property(flows, flows, fc.double({ min: 0.1, max: 10, noNaN: true }), (supply, exhaust, factor) => {
        const { value } = opened(airstreamBalance({ supply, exhaust }));
        expect(value).toBeGreaterThanOrEqual(0);
        expect(opened(airstreamBalance({ supply: exhaust, exhaust: supply })).value).toBe(value);
        const scaled = opened(airstreamBalance({ supply: supply * factor, exhaust: exhaust * factor })).value;
        expect(scaled).toBeCloseTo(value, 6);
      }),
    );
  });

  it.each([
    [80, 95],
    [95, 80],
  ])('propagates the uncertainties of %s and %s as differences do', (supply, exhaust) => {
    const found = opened(airstreamBalance({ supply, exhaust, uncertainties: { supply: 3, exhaust: 2 } }));
    const share = ([s = 1, e = 1]: readonly number[]) => (Math.max(s, e) / Math.min(s, e) - 1) * 100;
    const inputs = [
      { value: supply, u: 3 },
      { value: exhaust, u: 2 },
    ];
    expect(found.standardUncertainty).toBeCloseTo(opened(propagate(share, inputs)).standardUncertainty, 5);
    expect(found.standardUncertaintyOfNet).toBeCloseTo(Math.sqrt(13), 9);
    expect(found.expandedUncertainty).toBeCloseTo(2 * (found.standardUncertainty ?? 0), 9);
  });

  it('refuses a stream that does not flow', () => {
    expect(refusedWith(airstreamBalance({ supply: 0, exhaust: 80 }))).toBe('not-above-zero at supply');
    expect(refusedWith(airstreamBalance({ supply: 80, exhaust: NaN }))).toBe('not-above-zero at exhaust');
    expect(refusedWith(airstreamBalance({ supply: 1, exhaust: 1, uncertainties: { supply: -1 } }))).toBe(
      'bad-uncertainty at uncertainties.supply',
    );
  });
});

describe('rules of the mechanical code', () => {
  // IMC 401.2 and 403.3.2.1.1 by secondary pages (seen, addresses beside the figures).
  it('asks for mechanical ventilation below 5 air changes', () => {
    expect(opened(needsMechanicalVentilation(4.99))).toBe(true);
    expect(opened(needsMechanicalVentilation(5))).toBe(false);
    expect(refusedWith(needsMechanicalVentilation(-1))).toBe('below-zero at airChangesAt50');
  });

  it('leaves 70 % of the rate to a balanced and distributed system', () => {
    const rate = { value: 60, form: 'inch-pound', standardUncertainty: 10 } as const;
    const found = opened(rateForBalancedAndDistributed(rate));
    expect(found.value).toBeCloseTo(42, 9);
    expect(found.standardUncertainty).toBeCloseTo(7, 9);
    expect(found).toMatchObject({
      equation: 'IMC 403.3.2.1.1 (inch-pound)',
      steps: [{ working: '60 × 0.7' }],
    });
    expect(refusedWith(rateForBalancedAndDistributed({ value: 0, form: 'si' }))).toBe(
      'not-above-zero at rate',
    );
  });
});
