import { type Checked, computed, problem } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import {
  aboveZero,
  finite,
  firstProblem,
  statedUncertainties,
  type Uncertainties,
} from '../working/input.ts';
import { combined, type WorkingLine, type Worked, worked } from '../working/worked.ts';

type Station = 'returnBeforeFilter' | 'returnAfterFilter' | 'supplyBeforeCoil' | 'supplyAfterCoil';

/** Static pressures along the air's way, in. w.c. to the room, with their signs. */
export interface StaticReadings {
  /** in the return duct ahead of the filter; below zero */
  returnBeforeFilter?: number | null;
  /** between filter and blower cabinet: what enters the equipment; below zero */
  returnAfterFilter: number;
  /** what leaves the equipment; above zero. With the coil inside the cabinet this station does not exist */
  supplyBeforeCoil?: number | null;
  /** in the supply duct behind the coil; above zero */
  supplyAfterCoil?: number | null;
  /** true when the coil sits in the duct outside the cabinet (a furnace), false when inside (an air handler) */
  coilOutside: boolean;
  /** the highest total external static pressure on the equipment's plate, in. w.c. */
  ratedMaximum?: number | null;
  uncertainties?: Uncertainties<Station>;
}

export interface StaticDrop extends Worked<'inH2O'> {
  /** `return-side` and `supply-side` are duct and filter, or coil and duct, where one reading cannot part them */
  part: keyof typeof words;
  /** part of the total external static pressure, % */
  shareOfTotal: number;
}

export interface StaticProfile {
  total: Worked<'inH2O'>;
  /** total over the rated maximum, %; null without one */
  shareOfRated: Worked<'%'> | null;
  drops: StaticDrop[];
}

/**
 * Total external static pressure, in. w.c., and where it is spent. Total = leaving − entering, both with their
 * sign: before an outside coil (or behind an inside one) less after the filter. Drops: return ducts 0 − before
 * filter, filter before − after it, coil before − after it, supply ducts behind the coil − 0. The drops outside
 * the cabinet add up to the total; where one reading cannot part two of them, they are given as one.
 * The uncertainty of each is given when those of its stations are, which count as independent.
 * Problems: `not-a-number`, `not-above-zero` (rated maximum), `missing` (no pressure where the air leaves),
 * `swapped` (supply not above or return not below zero), `wrong-order` (a part that raises the pressure: probes or
 * ports swapped), `bad-uncertainty`. Never throws.
 * Source: signs as in the documentation of the public data format for home energy ratings (seen); the method is
 * common practice, no published source.
 */
export function staticProfile(readings: StaticReadings): Checked<StaticProfile> {
  const wrong = refusedReadings(readings);
  if (wrong) return wrong;
  const entering = station(readings, 'returnAfterFilter');
  const leaving = station(readings, readings.coilOutside ? 'supplyBeforeCoil' : 'supplyAfterCoil');
  if (!entering || !leaving) {
    const where = readings.coilOutside ? 'before the coil' : 'in the supply duct';
    return problem(
      readings.coilOutside ? 'supplyBeforeCoil' : 'supplyAfterCoil',
      'missing',
      `Without the pressure ${where}, where the air leaves the equipment, there is no total.`,
    );
  }
  const total = difference('Total external static pressure', leaving, entering);
  const drops = dropsOf(readings, total.value);
  const raised = drops.find(({ value }) => value < 0);
  if (raised) {
    return problem(
      raised.part,
      'wrong-order',
      `${words[raised.part]} would raise the pressure by ${plainNumber(-raised.value)} in. w.c., which only the ` +
        'blower can do. Check the probes and the ports.',
    );
  }
  return computed({ total, shareOfRated: shareOfRated(total, readings.ratedMaximum ?? null), drops });
}

interface Pressure {
  value: number;
  u: number | null | undefined;
}

const words = {
  'return-ducts': 'The return ducts',
  'return-side': 'The return ducts with the filter',
  filter: 'The filter',
  coil: 'The coil',
  'supply-ducts': 'The supply ducts',
  'supply-side': 'The coil with the supply ducts',
} as const;

const room: Pressure = { value: 0, u: 0 };

function station(readings: StaticReadings, key: Station): Pressure | null {
  const value = readings[key];
  return typeof value === 'number' ? { value, u: readings.uncertainties?.[key] } : null;
}

function difference(label: string, high: Pressure, low: Pressure): Worked<'inH2O'> {
  const value = high.value - low.value;
  const working = `${plainNumber(high.value, 4)} − (${plainNumber(low.value, 4)})`;
  const step: WorkingLine = { label, working, value, unit: 'inH2O' };
  const u = combined([
    [1, high.u],
    [1, low.u],
  ]);
  return worked('inH2O', value, u, [step]);
}

function dropsOf(readings: StaticReadings, total: number): StaticDrop[] {
  const before = station(readings, 'returnBeforeFilter');
  const after = station(readings, 'returnAfterFilter');
  const leaving = readings.coilOutside ? station(readings, 'supplyBeforeCoil') : null;
  const duct = station(readings, 'supplyAfterCoil');
  const parts: [StaticDrop['part'], Pressure | null, Pressure | null][] = [
    ['return-ducts', room, before],
    ['filter', before, after],
    ['return-side', before ? null : room, after],
    ['coil', leaving, duct],
    ['supply-ducts', duct, room],
    ['supply-side', duct ? null : leaving, room],
  ];
  return parts.flatMap(([part, high, low]) => {
    if (!high || !low) return [];
    const drop = difference(words[part], high, low);
    return [{ ...drop, part, shareOfTotal: (drop.value / total) * 100 }];
  });
}

function shareOfRated(total: Worked<'inH2O'>, rated: number | null): Worked<'%'> | null {
  if (rated === null) return null;
  const value = (total.value / rated) * 100;
  const working = `${plainNumber(total.value)} / ${plainNumber(rated)} × 100`;
  const step = { label: 'Share of the rated maximum', working, value, unit: '%' };
  return worked('%', value, combined([[100 / rated, total.standardUncertainty]]), [...total.steps, step]);
}

const stations: readonly [Station, string, 1 | -1][] = [
  ['returnBeforeFilter', 'The pressure before the filter', -1],
  ['returnAfterFilter', 'The pressure after the filter', -1],
  ['supplyBeforeCoil', 'The pressure before the coil', 1],
  ['supplyAfterCoil', 'The pressure in the supply duct', 1],
];

function refusedReadings(readings: StaticReadings) {
  const { ratedMaximum } = readings;
  const given = stations.filter(([key]) => readings[key] !== null && readings[key] !== undefined);
  return firstProblem(
    finite('returnAfterFilter', 'The pressure after the filter', readings.returnAfterFilter, 'in. w.c.'),
    ...given.map(([key, label]) => finite(key, label, readings[key] ?? NaN, 'in. w.c.')),
    ...given.map(([key, label, sign]) => swapped(key, label, readings[key] ?? NaN, sign)),
    typeof ratedMaximum === 'number'
      ? aboveZero('ratedMaximum', 'The rated maximum', ratedMaximum, 'in. w.c.')
      : null,
    statedUncertainties(readings.uncertainties),
  );
}

function swapped(path: string, label: string, value: number, sign: 1 | -1) {
  if (value * sign > 0) return null;
  const side = sign > 0 ? 'above zero on the supply side' : 'below zero on the return side';
  const message = `${label} is ${value} in. w.c., but it must be ${side}. Check the probe and the ports.`;
  return { path, code: 'swapped', message };
}
