import type { Checked } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { firstProblem, statedUncertainties, zeroOrMore } from '../working/input.ts';
import { type Contribution, combined, gaveWorked, type Worked, worked } from '../working/worked.ts';
import { localExhaustFigures } from './local-exhaust.ts';

/** One room's exhaust on demand as measured; 0 when it has none. */
export interface RoomExhaust {
  room: 'kitchen' | 'bath';
  /** cfm, zero or more */
  flow: number;
  standardUncertainty?: number | null;
}

/**
 * What an existing house's whole-house rate is raised by because kitchens and baths exhaust too little, cfm:
 * a quarter of the sum of the shortfalls below 100 (kitchen) and 50 (bath). More than enough in one room does
 * not make up for another.
 * @param rooms all kitchens and baths with their flow on demand; none gives 0
 * Problems: `below-zero`, `bad-uncertainty`. Never throws. Source: 62.2 Appendix A as seen at
 * https://www.thefreelibrary.com/Residential+Ventilation+for+Existing+Buildings-a0525004055 ; that a window which
 * opens stands in for 20 cfm is from memory and not applied.
 */
export function localExhaustDeficit(rooms: readonly RoomExhaust[]): Checked<Worked<'cfm'>> {
  const wrong = firstProblem(
    ...rooms.flatMap(({ flow, standardUncertainty }, index) => [
      zeroOrMore(`rooms.${index}.flow`, 'The exhaust flow', flow, 'cfm'),
      statedUncertainties({ [`rooms.${index}.flow`]: standardUncertainty }),
    ]),
  );
  if (wrong) return wrong;
  const shortfalls = rooms.map(({ room, flow }) => Math.max(0, localExhaustFigures[room].onDemand - flow));
  const value = shortfalls.reduce((sum, shortfall) => sum + shortfall, 0) / 4;
  const contributions = rooms.map(({ standardUncertainty }, index): Contribution => [
    (shortfalls[index] ?? 0) > 0 ? 1 / 4 : 0,
    standardUncertainty,
  ]);
  const working = `(${shortfalls.map((shortfall) => plainNumber(shortfall)).join(' + ') || '0'}) / 4`;
  const step = { label: 'Deficit of local exhaust', working, value, unit: 'cfm' };
  return gaveWorked(worked('cfm', value, rooms.length === 0 ? 0 : combined(contributions), [step]), {});
}

/**
 * What 62.2-2010 credits an existing house for infiltration beyond the 2 cfm per 100 ft² that the edition already
 * counts on, cfm: half of the excess, (Qinf − 0.02 · A) / 2, never below zero.
 * @param infiltration effective annual infiltration, cfm, zero or more @param floorArea ft², above zero
 * Problems: `below-zero`. Never throws. Source: the 2 cfm per 100 ft² seen at
 * http://www.greenbuildingadvisor.com/blogs/dept/musings/how-much-fresh-air-does-your-home-need ; half of the excess
 * from memory.
 */
export function infiltrationCredit2010(
  infiltration: number,
  floorArea: number,
  infiltrationUncertainty: number | null = null,
): Checked<Worked<'cfm'>> {
  const wrong = firstProblem(
    zeroOrMore('infiltration', 'The infiltration', infiltration, 'cfm'),
    zeroOrMore('floorArea', 'The conditioned floor area', floorArea, 'ft²'),
    statedUncertainties({ infiltration: infiltrationUncertainty }),
  );
  if (wrong) return wrong;
  const value = Math.max(0, (infiltration - 0.02 * floorArea) / 2);
  const working = `max(0, (${plainNumber(infiltration)} − 0.02 × ${plainNumber(floorArea)}) / 2)`;
  const step = { label: 'Credit for infiltration, 2010', working, value, unit: 'cfm' };
  return gaveWorked(worked('cfm', value, combined([[1 / 2, infiltrationUncertainty]]), [step]), {});
}
