import { describe, expect, it } from 'vitest';
import { opened, refusalOf } from '../testing/opened.ts';
import type { WorkingLine } from '../working/worked.ts';
import { airFreeCarbonMonoxide } from './air-free.ts';
import { combustionAirVolume } from './combustion-air.ts';
import { drawsEnough, leastDraft } from './draft.ts';
import { judgeDepressurization, judgeFlueCarbonMonoxide, judgeSpillage } from './judge-appliance.ts';
import { judgeFuelGas, judgeRoomCarbonMonoxide } from './judge-room.ts';

const flue = { appliance: 'water-heater', ppm: 80, basis: 'air-free', protocol: 'fuel-gas-code' } as const;
const spill = {
  seconds: 70,
  ended: 'stopped',
  vent: 'cold',
  protocol: 'older-building-analyst',
} as const;
const zone = { depressurization: 4, venting: 'atmospheric', protocol: 'older-building-analyst' } as const;

type Stepped = { steps: WorkingLine[] };

describe('a combustion reading that cannot be judged', () => {
  it.each([
    [
      'carbon monoxide below zero',
      () => airFreeCarbonMonoxide(-1, 5),
      'Carbon monoxide is -1 ppm; it must be zero or more.',
    ],
    [
      'oxygen below zero',
      () => airFreeCarbonMonoxide(50, -1),
      'Oxygen is -1 %; it must be between 0 and 20 %.',
    ],
    [
      'oxygen beyond all air',
      () => airFreeCarbonMonoxide(50, 101),
      'Oxygen is 101 %; it must be between 0 and 20 %.',
    ],
    [
      'oxygen that is no number',
      () => airFreeCarbonMonoxide(50, NaN),
      'Oxygen is NaN %; it must be between 0 and 20 %.',
    ],
    [
      'room air in the probe',
      () => airFreeCarbonMonoxide(50, 20),
      'Oxygen is 20 %, nearly that of air (20.9 %): the probe draws room air. Move the probe into the flue gas before any dilution air, then read again.',
    ],
    [
      'a burner below zero',
      () => combustionAirVolume([40_000, -1]),
      'The burner input is -1 Btu/h; it must be zero or more.',
    ],
    [
      'an air change rate below zero',
      () => combustionAirVolume([40_000], -0.1),
      'The air change rate is -0.1 1/h; it must be zero or more.',
    ],
    [
      'an uncertainty below zero',
      () => combustionAirVolume([40_000], null, -1),
      'The standard uncertainty of inputs is -1; it must be zero or more.',
    ],
    [
      'an outdoor temperature that is no number',
      () => leastDraft(NaN),
      'The outdoor temperature is NaN °F; it must be a number.',
    ],
    [
      'a draft that is no number',
      () => drawsEnough(NaN, 20, true),
      'The draft is NaN Pa; it must be a number.',
    ],
    [
      'a draft line that the company did not confirm',
      () => drawsEnough(-3, 20, false),
      'The draft line was not seen in any text; the company confirms it before anybody is judged by it.',
    ],
    [
      'a draft at no temperature',
      () => drawsEnough(-3, NaN, true),
      'The outdoor temperature is NaN °F; it must be a number.',
    ],
    [
      'flue gas below zero',
      () => judgeFlueCarbonMonoxide({ ...flue, ppm: -1 }),
      'Carbon monoxide in the flue gas is -1 ppm; it must be zero or more.',
    ],
    [
      'flue gas by a protocol that nobody knows',
      () => judgeFlueCarbonMonoxide({ ...flue, protocol: 'mine' as 'company' }),
      'The protocol is "mine", which is not known here; there is older-building-analyst, bpi-1200, fuel-gas-code, appliance-standard, programme-study, company.',
    ],
    [
      'flue gas on another basis',
      () => judgeFlueCarbonMonoxide({ ...flue, basis: 'wet' as 'air-free' }),
      'The basis is "wet", which is not known here; there is air-free, as-measured.',
    ],
    [
      'flue gas of an appliance without figures',
      () => judgeFlueCarbonMonoxide({ ...flue, appliance: 'forge' }),
      'The figures for this by fuel gas code (IFGC), Appendix D are not known here; the company sets or confirms them before use.',
    ],
    [
      'spillage for less than no time',
      () => judgeSpillage({ ...spill, seconds: -1 }),
      'The time is -1 s; it must be zero or more.',
    ],
    [
      'a watch that ended otherwise',
      () => judgeSpillage({ ...spill, ended: 'broken off' as 'stopped' }),
      'How the watch ended is "broken off", which is not known here; there is stopped, still-spilling.',
    ],
    [
      'a vent that is neither cold nor warm',
      () => judgeSpillage({ ...spill, vent: 'hot' as 'warm' }),
      'The vent is "hot", which is not known here; there is cold, warm.',
    ],
    [
      'spillage by a protocol without confirmed figures',
      () => judgeSpillage({ ...spill, protocol: 'bpi-1200' }),
      'The figures for this by BPI-1200 and ACCA 12 QH were not seen (spillage.bpi-1200.cold); the company sets or confirms them before use.',
    ],
    [
      'a depressurization that is no number',
      () => judgeDepressurization({ ...zone, depressurization: NaN }),
      'The depressurization is NaN Pa; it must be a number.',
    ],
    [
      'a depressurization by figures that were not seen',
      () => judgeDepressurization(zone),
      'The figures for this by older building analyst standard (BPI) are not known here; the company sets or confirms them before use.',
    ],
    [
      'a room’s carbon monoxide below zero',
      () => judgeRoomCarbonMonoxide({ ppm: -1, protocol: 'company' }),
      'Carbon monoxide is -1 ppm; it must be zero or more.',
    ],
    [
      'a room’s carbon monoxide by figures that are not set',
      () => judgeRoomCarbonMonoxide({ ppm: 8, protocol: 'company' }),
      'The figures for this by the company’s own figures are not known here; the company sets or confirms them before use.',
    ],
    [
      'a room’s carbon monoxide by figures that nobody confirmed',
      () => judgeRoomCarbonMonoxide({ ppm: 8, protocol: 'bpi-1200' }),
      'The figures for this by BPI-1200 and ACCA 12 QH were not seen (room-co.bpi-1200.advise, room-co.bpi-1200.stop-work); the company sets or confirms them before use.',
    ],
    [
      'fuel gas below zero',
      () => judgeFuelGas(-1),
      'Fuel gas in the air is -1 % LEL; it must be zero or more.',
    ],
  ])('%s is refused in words', (_what, compute, words) => {
    expect(refusalOf<unknown>(compute())).toBe(words);
  });
});

describe('the working of a combustion test', () => {
  it.each([
    [
      'the volume for two burners',
      () => combustionAirVolume([40_000, 36_000]),
      ['Volume for combustion air | (40000 + 36000) / 1000 × 50 | ft3'],
    ],
    [
      'the volume for none',
      () => combustionAirVolume([]),
      ['Volume for combustion air | (0) / 1000 × 50 | ft3'],
    ],
    ['the least draft', () => leastDraft(30), ['Least draft | 30 / 40 − 2.75 | Pa']],
    [
      'the least draft in great cold, which counts as 10 °F',
      () => leastDraft(-20),
      ['Least draft | 10 / 40 − 2.75 | Pa'],
    ],
    [
      'flue gas',
      () => judgeFlueCarbonMonoxide({ ...flue, appliance: 'furnace', protocol: 'appliance-standard' }),
      ['Carbon monoxide in the flue gas, air-free | 80 | ppm'],
    ],
    [
      'spillage that stopped',
      () => judgeSpillage(spill),
      ['Time until spillage stopped, cold vent | 70 | s'],
    ],
    [
      'spillage that went on',
      () => judgeSpillage({ ...spill, ended: 'still-spilling' }),
      ['Still spilling after | 70 | s'],
    ],
    [
      'a room',
      () => judgeRoomCarbonMonoxide({ ppm: 8, protocol: 'older-building-analyst' }),
      ['Highest carbon monoxide in the rooms | 8 | ppm'],
    ],
    ['fuel gas', () => judgeFuelGas(5), ['Fuel gas in the air | 5 | % LEL']],
    [
      'a zone by the company’s own figure',
      () =>
        judgeDepressurization({
          ...zone,
          protocol: 'company',
          company: {
            own: [
              {
                id: 'own',
                protocol: 'company',
                reached: 'above',
                value: 3,
                unit: 'Pa',
                action: 'correct',
                of: 'atmospheric',
                source: { kind: 'common-practice', citation: 'own', confirmed: true },
              },
            ],
          },
        }),
      ['Depressurization of the combustion zone | 4 | Pa'],
    ],
  ])('of %s', (_what, compute, lines) => {
    const { steps } = opened<Stepped>(compute());
    expect(steps.map(({ label, working, unit }) => `${label} | ${working} | ${unit}`)).toEqual(lines);
  });
});

describe('what has to be known of a combustion test', () => {
  it.each([
    [
      'a house too tight for the rule of volume',
      () => combustionAirVolume([40_000], 0.39),
      ['below 0.40 air changes an hour the code has another rule; this volume does not hold'] as string[],
    ],
    ['a house just not too tight for it', () => combustionAirVolume([40_000], 0.4), [] as string[]],
    [
      'the least draft',
      () => leastDraft(30),
      ['the draft line is from memory; the company confirms it before use'] as string[],
    ],
    [
      'spillage that went on',
      () => judgeSpillage({ ...spill, ended: 'still-spilling' }),
      ['still spilling after 70 s'] as string[],
    ],
    [
      'a room by a protocol of which only the advice was confirmed',
      () =>
        judgeRoomCarbonMonoxide({
          ppm: 36,
          protocol: 'bpi-1200',
          company: { confirmed: ['room-co.bpi-1200.advise'] },
        }),
      [
        'room-co.bpi-1200.stop-work is not confirmed and was not used',
        'BPI-1200 and ACCA 12 QH has no usable figure here that stops the work; judged by the stop of the older building analyst standard (BPI)',
      ] as string[],
    ],
    [
      'a room by a protocol that nobody confirmed',
      () => judgeRoomCarbonMonoxide({ ppm: 36, protocol: 'bpi-1200' }),
      [
        'room-co.bpi-1200.advise is not confirmed and was not used',
        'room-co.bpi-1200.stop-work is not confirmed and was not used',
        'BPI-1200 and ACCA 12 QH has no usable figure here that stops the work; judged by the stop of the older building analyst standard (BPI)',
      ] as string[],
    ],
    [
      'a room by a protocol that was seen',
      () => judgeRoomCarbonMonoxide({ ppm: 36, protocol: 'older-building-analyst' }),
      [] as string[],
    ],
  ])('of %s', (_what, compute, remarks) => {
    expect(opened<{ remarks: string[] }>(compute()).remarks).toEqual(remarks);
  });
});
