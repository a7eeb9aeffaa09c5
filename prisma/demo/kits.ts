import {
  testDefinition,
  type InstrumentFacts,
  type InstrumentKind,
  type TestKey,
} from '@countercheck/measurement';
import { kit, raters } from './cast.ts';
import type { Calendar } from './calendar.ts';
import type { CarriedInstrument } from './physics/instrument.ts';
import type { Random } from './random.ts';

export interface KitItem extends CarriedInstrument {
  rater: number;
  label: string;
  serial: string;
  calibratedOn: string;
  dueOn: string;
}

/** The rater whose exhaust flow meter is overdue, so that the demo shows what that means. */
export const overdueRater = 3;

/** Every rater's instruments; each has an error of its own within what its maker states. */
export function makeKits(calendar: Calendar, random: Random): KitItem[] {
  return raters.flatMap((_, rater) =>
    kit.map((facts, place) => {
      const overdue = rater === overdueRater && facts.kind === 'exhaust-flow-meter';
      const calibratedOn = calendar.dayOf(calendar.at(overdue ? -405 : -(110 + 17 * rater + place), 12));
      const dueOn = calendar.dayOf(calendar.at(overdue ? -40 : 365 - (110 + 17 * rater + place), 12));
      return {
        id: random.uuid(),
        calibrationId: random.uuid(),
        rater,
        facts,
        gain: random.normal(0, facts.accuracyPercent / 100 / 3),
        label: `${facts.word} ${rater + 1}`,
        serial: `TP-${String(rater + 1)}${String(place + 1).padStart(2, '0')}-${String(random.integer(1000, 9999))}`,
        calibratedOn,
        dueOn,
      };
    }),
  );
}

/** The same instruments as they were in the year before, under the calibration before the present one. */
export function earlierKits(kits: KitItem[], random: Random): KitItem[] {
  return kits.map((item) => ({
    ...item,
    calibrationId: random.uuid(),
    calibratedOn: yearEarlier(item.calibratedOn),
    dueOn: item.calibratedOn,
  }));
}

function yearEarlier(day: string): string {
  const date = new Date(day);
  date.setUTCDate(date.getUTCDate() - 365);
  return date.toISOString().slice(0, 10);
}

/** What the rater takes out of the bag for a test; null where none is needed. */
export function instrumentFor(
  test: TestKey,
  rater: number,
  kits: KitItem[],
  useOverdue: boolean,
): KitItem | null {
  const kinds: readonly InstrumentKind[] = testDefinition(test).instrumentKinds;
  const own = kits.filter((item) => item.rater === rater && kinds.includes(item.facts.kind));
  const good = own.filter(
    (item) => useOverdue || !(rater === overdueRater && item.facts.kind === 'exhaust-flow-meter'),
  );
  return good[0] ?? null;
}

export function factsOf(item: KitItem): InstrumentFacts {
  const { kind, accuracyPercent, accuracyAbsolute, resolution, ranges } = item.facts;
  return {
    id: item.id,
    kind,
    label: item.label,
    accuracyPercent,
    accuracyAbsolute,
    resolution,
    calibratedOn: item.calibratedOn,
    dueOn: item.dueOn,
    ranges,
  };
}
