import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { opened, refusedWith } from '../testing/opened.ts';
import {
  depressurizationThresholds,
  flueCarbonMonoxideThresholds,
  spillageThresholds,
} from './appliance-figures.ts';
import { judgeDepressurization, judgeFlueCarbonMonoxide, judgeSpillage } from './judge-appliance.ts';
import { judgeFuelGas, judgeRoomCarbonMonoxide } from './judge-room.ts';
import { fuelGasThresholds, roomCarbonMonoxideThresholds } from './room-figures.ts';
import { combustionCaution, combustionProtocols, isReached } from './thresholds.ts';
import type { CombustionProtocol, CombustionThreshold } from './thresholds.ts';

const newer = ['room-co.bpi-1200.advise', 'room-co.bpi-1200.stop-work'];
const every = [
  ...roomCarbonMonoxideThresholds,
  ...fuelGasThresholds,
  ...flueCarbonMonoxideThresholds,
  ...spillageThresholds,
  ...depressurizationThresholds,
];

function room(ppm: number, protocol: CombustionProtocol, confirmed: string[] = []) {
  return opened(judgeRoomCarbonMonoxide({ ppm, protocol, company: { confirmed } }));
}

describe('carbon monoxide in the rooms', () => {
  // Above 35: BPI; below 30 an inspection goes on: IFGC Appendix D (both seen, addresses in the data).
  it.each([
    [9, 'older-building-analyst', 'none'],
    [10, 'older-building-analyst', 'advise'],
    [35, 'older-building-analyst', 'advise'],
    [36, 'older-building-analyst', 'stop-work'],
    [29, 'fuel-gas-code', 'none'],
    [30, 'fuel-gas-code', 'stop-work'],
  ] as const)('of %s ppm by the %s asks for %s', (ppm, protocol, action) => {
    const found = room(ppm, protocol);
    expect(found).toMatchObject({ action, protocol, value: ppm, unit: 'ppm', remarks: [] });
    expect(found.caution).toBe(combustionCaution);
    expect(found.threshold?.protocol).toBe(action === 'none' ? undefined : protocol);
  });

  it('names the protocols that come to something else', () => {
    expect(room(32, 'older-building-analyst').conflicts).toEqual([
      { protocol: 'fuel-gas-code', action: 'stop-work', confirmed: true },
      { protocol: 'bpi-1200', action: 'none', confirmed: false },
    ]);
    expect(room(80, 'older-building-analyst').conflicts).toEqual([]);
    expect(room(5, 'older-building-analyst').conflicts).toEqual([]);
  });

  it('stops by the seen figures under a protocol that nobody confirmed', () => {
    const found = room(32, 'bpi-1200');
    expect(found).toMatchObject({ action: 'stop-work', threshold: { protocol: 'fuel-gas-code' } });
    expect(found.remarks.join(' ')).toContain('no usable figure here that stops the work');
    expect(room(50, 'bpi-1200', newer.slice(0, 1)).action).toBe('stop-work');
    expect(refusedWith(judgeRoomCarbonMonoxide({ ppm: 12, protocol: 'bpi-1200' }))).toBe(
      'limits-not-set at protocol',
    );
    expect(refusedWith(judgeRoomCarbonMonoxide({ ppm: 12, protocol: 'appliance-standard' }))).toBe(
      'limits-not-set at protocol',
    );
    expect(judgeRoomCarbonMonoxide({ ppm: 12, protocol: 'bpi-1200' })).toMatchObject({
      problem: { message: expect.stringContaining('were not seen (room-co.bpi-1200.advise') },
    });
  });

  it('shows the reading as its working and names every figure that was not used', () => {
    const found = room(36, 'bpi-1200', newer.slice(1));
    expect(found.steps).toEqual([
      { label: 'Highest carbon monoxide in the rooms', working: '36', value: 36, unit: 'ppm' },
    ]);
    expect(found).toMatchObject({
      action: 'none',
      remarks: ['room-co.bpi-1200.advise is not confirmed and was not used'],
    });
  });

  it('calls another protocol’s view confirmed only when every figure behind it is', () => {
    const view = (ppm: number, confirmed: string[]) =>
      room(ppm, 'older-building-analyst', confirmed).conflicts.find(
        ({ protocol }) => protocol === 'bpi-1200',
      );
    expect(view(36, newer.slice(0, 1))).toEqual({ protocol: 'bpi-1200', action: 'advise', confirmed: true });
    expect(view(36, newer.slice(1))?.confirmed).toBe(false);
    expect(view(20, newer.slice(0, 1))).toEqual({ protocol: 'bpi-1200', action: 'none', confirmed: false });
    expect(view(20, newer)?.confirmed).toBe(true);
  });

  it('says in words that figures are not set', () => {
    const words = (protocol: CombustionProtocol) => {
      const found = judgeRoomCarbonMonoxide({ ppm: 12, protocol });
      return found.ok ? '' : found.problem.message;
    };
    expect(words('bpi-1200')).toBe(
      'The figures for this by BPI-1200 and ACCA 12 QH were not seen (room-co.bpi-1200.advise, ' +
        'room-co.bpi-1200.stop-work); the company sets or confirms them before use.',
    );
    expect(words('company')).toBe(
      'The figures for this by the company’s own figures are not known here; the company sets or confirms them before use.',
    );
  });

  it('goes by a protocol once the company confirmed it', () => {
    expect(room(35, 'bpi-1200', newer)).toMatchObject({ action: 'none', remarks: [] });
    expect(room(36, 'bpi-1200', newer).action).toBe('advise');
    expect(room(69, 'bpi-1200', newer).action).toBe('advise');
    expect(room(70, 'bpi-1200', newer).action).toBe('stop-work');
  });

  it('takes the company’s own figure in place of a shipped one, or under its own name', () => {
    const shipped = roomCarbonMonoxideThresholds[1] as CombustionThreshold;
    const stricter = { ...shipped, value: 25 };
    const own = [
      stricter,
      { ...shipped, id: 'room-co.company.stop-work', protocol: 'company', value: 20 } as const,
    ];
    const by = (ppm: number, protocol: CombustionProtocol) =>
      opened(judgeRoomCarbonMonoxide({ ppm, protocol, company: { own } })).action;
    expect([by(25, 'older-building-analyst'), by(26, 'older-building-analyst')]).toEqual([
      'advise',
      'stop-work',
    ]);
    expect([by(20, 'company'), by(21, 'company')]).toEqual(['none', 'stop-work']);
  });

  it('never asks for less at a higher reading, and always stops from 36 ppm on unless 70 was confirmed', () => {
    const protocols = fc.constantFrom(...(Object.keys(combustionProtocols) as CombustionProtocol[]));
    const order = ['none', 'advise', 'correct', 'stop-work'];
    fc.assert(
      fc.property(
        protocols,
        fc.integer({ min: 0, max: 2000 }),
        fc.integer({ min: 0, max: 500 }),
        (protocol, a, more) => {
          const [low, high] = [a, a + more].map((ppm) => judgeRoomCarbonMonoxide({ ppm, protocol }));
          if (a >= 36) expect(opened(low!).action).toBe('stop-work');
          if (low?.ok && high?.ok)
            expect(order.indexOf(high.value.action)).toBeGreaterThanOrEqual(order.indexOf(low.value.action));
          if (low?.ok && low.value.action === 'stop-work') expect(high?.ok).toBe(true);
        },
      ),
    );
  });

  it('carries the uncertainty and refuses what cannot be', () => {
    const reading = { ppm: 12, protocol: 'older-building-analyst' } as const;
    expect(opened(judgeRoomCarbonMonoxide({ ...reading, standardUncertainty: 3 }))).toMatchObject({
      standardUncertainty: 3,
      expandedUncertainty: 6,
    });
    for (const ppm of [-1, NaN, Infinity])
      expect(refusedWith(judgeRoomCarbonMonoxide({ ...reading, ppm }))).toBe('below-zero at ppm');
    expect(refusedWith(judgeRoomCarbonMonoxide({ ...reading, protocol: 'x' as 'company' }))).toBe(
      'unknown-choice at protocol',
    );
    expect(refusedWith(judgeRoomCarbonMonoxide({ ...reading, standardUncertainty: -1 }))).toBe(
      'bad-uncertainty at uncertainties.ppm',
    );
    expect(isReached(NaN, roomCarbonMonoxideThresholds[0] as CombustionThreshold)).toBe(true);
  });

  it('stops for fuel gas from 20 % of the lower explosive limit on', () => {
    expect(opened(judgeFuelGas(19.9))).toMatchObject({ action: 'none', protocol: 'fuel-gas-code' });
    expect(opened(judgeFuelGas(20)).action).toBe('stop-work');
    expect(refusedWith(judgeFuelGas(-1))).toBe('below-zero at percentOfLimit');
  });
});

describe('carbon monoxide in flue gas', () => {
  // ANSI Z21 by a secondary page (seen): furnace 400, unvented heater 200, oven 800 ppm air-free.
  it.each([
    ['furnace', 400],
    ['room-heater', 200],
    ['oven', 800],
  ])('of a %s asks for correction above %s ppm air-free', (appliance, limit) => {
    const at = (ppm: number) =>
      opened(judgeFlueCarbonMonoxide({ appliance, ppm, basis: 'air-free', protocol: 'appliance-standard' }))
        .action;
    expect([at(limit), at(limit + 1)]).toEqual(['none', 'correct']);
  });

  it('waits for the company where the text was not seen, and names the conflict', () => {
    const oven = { appliance: 'oven', ppm: 180, basis: 'as-measured' } as const;
    expect(refusedWith(judgeFlueCarbonMonoxide({ ...oven, protocol: 'fuel-gas-code' }))).toBe(
      'limits-not-set at protocol',
    );
    const company = { confirmed: ['flue-co.fuel-gas-code.oven'] };
    const found = opened(judgeFlueCarbonMonoxide({ ...oven, protocol: 'fuel-gas-code', company }));
    expect(found).toMatchObject({
      action: 'none',
      conflicts: [{ protocol: 'programme-study', action: 'correct', confirmed: true }],
    });
  });

  it('never compares one basis with a figure for the other', () => {
    const reading = {
      appliance: 'furnace',
      ppm: 50,
      basis: 'as-measured',
      protocol: 'appliance-standard',
    } as const;
    expect(refusedWith(judgeFlueCarbonMonoxide(reading))).toBe('limits-not-set at protocol');
    const figure = flueCarbonMonoxideThresholds[0] as CombustionThreshold;
    const elsewhere = { ...figure, id: 'own', protocol: 'company', of: 'boiler' } as const;
    const company = { own: [elsewhere, { ...elsewhere, id: 'own2', of: 'furnace' }] };
    expect(refusedWith(judgeFlueCarbonMonoxide({ ...reading, protocol: 'company', company }))).toBe(
      'limits-not-set at protocol',
    );
    expect(
      opened(
        judgeFlueCarbonMonoxide({ ...reading, basis: 'air-free', ppm: 401, protocol: 'company', company }),
      ).threshold,
    ).toMatchObject({ id: 'own2' });
    expect(refusedWith(judgeFlueCarbonMonoxide({ ...reading, basis: 'x' as 'air-free' }))).toBe(
      'unknown-choice at basis',
    );
    expect(refusedWith(judgeFlueCarbonMonoxide({ ...reading, ppm: -1 }))).toBe('below-zero at ppm');
  });
});

describe('spillage', () => {
  const stopped = { ended: 'stopped', protocol: 'older-building-analyst' } as const;

  // Clear within a minute: older building analyst standard (seen); 2 and 5 minutes from memory.
  it('has to stop within a minute by the older standard, cold or warm', () => {
    for (const vent of ['cold', 'warm'] as const) {
      expect(opened(judgeSpillage({ ...stopped, vent, seconds: 60 })).action).toBe('none');
      expect(opened(judgeSpillage({ ...stopped, vent, seconds: 61 })).action).toBe('correct');
    }
    expect(opened(judgeSpillage({ ...stopped, vent: 'cold', seconds: 200 })).conflicts).toEqual([
      { protocol: 'bpi-1200', action: 'none', confirmed: false },
    ]);
  });

  it('by the newer one only once the company confirmed it', () => {
    const newerOne = { ended: 'stopped', protocol: 'bpi-1200' } as const;
    expect(refusedWith(judgeSpillage({ ...newerOne, vent: 'warm', seconds: 30 }))).toBe(
      'limits-not-set at protocol',
    );
    const company = { confirmed: ['spillage.bpi-1200.warm', 'spillage.bpi-1200.cold'] };
    const at = (vent: 'cold' | 'warm', seconds: number) =>
      opened(judgeSpillage({ ...newerOne, vent, seconds, company })).action;
    expect([at('warm', 120), at('warm', 121), at('cold', 300), at('cold', 301)]).toEqual([
      'none',
      'correct',
      'none',
      'correct',
    ]);
    const own = [
      { ...(spillageThresholds[0] as CombustionThreshold), id: 'x', protocol: 'company' } as const,
    ];
    const by = { ended: 'stopped', protocol: 'company', company: { own }, seconds: 61 } as const;
    expect(opened(judgeSpillage({ ...by, vent: 'cold' })).action).toBe('correct');
    expect(refusedWith(judgeSpillage({ ...by, vent: 'warm' }))).toBe('limits-not-set at protocol');
  });

  it('stops the work when it still spills, however short the watch and whatever the protocol', () => {
    const found = opened(
      judgeSpillage({ ended: 'still-spilling', vent: 'cold', seconds: 20, protocol: 'bpi-1200' }),
    );
    expect(found).toMatchObject({ action: 'stop-work', value: 20, remarks: ['still spilling after 20 s'] });
    expect(found.caution).toBe(combustionCaution);
  });

  it('refuses what cannot be', () => {
    const reading = { ...stopped, vent: 'cold', seconds: 1 } as const;
    expect(refusedWith(judgeSpillage({ ...reading, seconds: -1 }))).toBe('below-zero at seconds');
    expect(refusedWith(judgeSpillage({ ...reading, ended: 'x' as 'stopped' }))).toBe(
      'unknown-choice at ended',
    );
    expect(refusedWith(judgeSpillage({ ...reading, vent: 'x' as 'cold' }))).toBe('unknown-choice at vent');
  });
});

describe('depressurization of a combustion zone', () => {
  const reading = { venting: 'water-heater-alone', protocol: 'older-building-analyst' } as const;

  it('is judged by figures that the company confirmed, and by no others', () => {
    expect(refusedWith(judgeDepressurization({ ...reading, depressurization: 9 }))).toBe(
      'limits-not-set at protocol',
    );
    for (const { id, of: venting = '', value } of depressurizationThresholds) {
      const at = (depressurization: number) =>
        opened(judgeDepressurization({ ...reading, venting, depressurization, company: { confirmed: [id] } }))
          .action;
      expect([at(-3), at(value), at(value + 0.1)]).toEqual(['none', 'none', 'correct']);
    }
    expect(depressurizationThresholds.map(({ value }) => value)).toEqual([2, 3, 5, 5, 15, 50]);
    expect(refusedWith(judgeDepressurization({ ...reading, depressurization: NaN }))).toBe(
      'not-a-number at depressurization',
    );
  });
});

describe('the figures', () => {
  it('each have an id of their own, and are confirmed only where a text was seen', () => {
    expect(new Set(every.map(({ id }) => id)).size).toBe(every.length);
    for (const { source } of every) {
      expect(source.confirmed).toBe(source.kind === 'published');
      expect(source.citation.includes('from memory')).toBe(!source.confirmed);
    }
  });

  it('stop the work by seen texts only, as shipped', () => {
    const stops = every.filter(({ action, source }) => action === 'stop-work' && source.confirmed);
    expect(stops.map(({ id }) => id)).toEqual([
      'room-co.older-building-analyst.stop-work',
      'room-co.fuel-gas-code.stop-work',
      'fuel-gas.fuel-gas-code.stop-work',
    ]);
  });
});
