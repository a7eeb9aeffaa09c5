import {
  assess,
  itemsToRevisit,
  testsOpen,
  type FileReading,
  type HouseFile,
} from '@countercheck/assessment';
import {
  displayUnit,
  quantities,
  testDefinition,
  type FieldDefinition,
  type RawReading,
  type TestKey,
} from '@countercheck/measurement';
import type { Evaluate, ItemVerdict } from '@countercheck/rules';
import type { Calendar } from './calendar.ts';
import { fileOf, subjectIndex, type DemoHouse } from './house.ts';
import { factsOf, instrumentFor, type KitItem } from './kits.ts';
import { copyFigure } from './physics/copying.ts';
import { readTask } from './physics/readings.ts';
import type { Truth } from './physics/truth.ts';
import type { Random } from './random.ts';

export interface DemoReading {
  file: FileReading;
  instrument: KitItem | null;
  takenAt: Date;
  entered: Record<string, { text: string; unit: string }>;
  supersedesId: string | null;
}

/** What the rater typed: the figure with at least the digits of its display, and the unit beside the field. */
function typed(test: TestKey, raw: RawReading): DemoReading['entered'] {
  const definition = testDefinition(test);
  const entered: DemoReading['entered'] = {};
  const add = (prefix: string, fields: FieldDefinition[], values: Record<string, number>) => {
    for (const [key, value] of Object.entries(values)) {
      const kind = fields.find((field) => field.key === key)?.quantity;
      if (!kind) continue;
      const least = quantities[kind].us.decimals;
      const own = String(value).split('.')[1]?.length ?? 0;
      entered[`${prefix}values.${key}`] = {
        text: value.toFixed(Math.max(least, own)),
        unit: displayUnit(kind, 'us'),
      };
    }
  };
  add('', definition.fields, raw.values);
  raw.rows.forEach((row, i) => add(`rows.${i}.`, definition.rows?.fields ?? [], row.values));
  return entered;
}

export interface VisitSetting {
  id: string;
  house: DemoHouse;
  truth: Truth;
  reported: Record<string, Record<string, number>>;
  rater: number;
  startsAt: Date;
  kits: KitItem[];
  rules: Evaluate;
  calendar: Calendar;
  random: Random;
  before: DemoReading[];
  useOverdue: boolean;
  /** writes down what the installer reported instead of measuring */
  copies?: boolean;
}

export interface Tested {
  readings: DemoReading[];
  verdicts: ItemVerdict[];
  file: HouseFile;
}

function current(readings: DemoReading[]): FileReading[] {
  const replaced = new Set(readings.map(({ supersedesId }) => supersedesId));
  return readings.filter(({ file }) => !replaced.has(file.id)).map(({ file }) => file);
}

export function stateOf(
  visit: Pick<VisitSetting, 'house' | 'reported' | 'rules'>,
  readings: DemoReading[],
): Tested {
  const file = fileOf(visit.house, visit.reported, current(readings));
  return { readings, file, verdicts: assess(file, visit.rules).scorecard.verdicts };
}

export function take(
  visit: VisitSetting,
  test: TestKey,
  subjectId: string,
  minute: number,
  replaces: string | null,
): DemoReading {
  const { random, rater, kits, house, truth } = visit;
  const instrument = instrumentFor(test, rater, kits, visit.useOverdue);
  const carried = instrument ?? (kits[0] as KitItem);
  const read = readTask({ test, index: subjectIndex(house, subjectId) }, truth, house.plan, carried, random);
  const figures = visit.reported[subjectId] ?? {};
  const raw = visit.copies ? copyFigure(test, read, figures, carried, random) : read;
  const takenAt = new Date(visit.startsAt.getTime() + minute * 60_000);
  const file: FileReading = {
    id: random.uuid(),
    test,
    subjectId,
    raw,
    instrument: instrument && factsOf(instrument),
    takenOn: visit.calendar.dayOf(takenAt),
    visitId: visit.id,
  };
  return { file, instrument, takenAt, entered: typed(test, raw), supersedesId: replaces };
}

/** A whole first visit: what is open is read, until only what nobody needs is left. `share` stops early. */
export function testHouse(visit: VisitSetting, share = 1): Tested {
  const readings = [...visit.before];
  let minute = 4;
  for (let round = 0; round < 6; round += 1) {
    const now = stateOf(visit, readings);
    const scorecard = assess(now.file, visit.rules).scorecard;
    const open = testsOpen(scorecard, now.file).filter(
      ({ test }) => test !== 'bedroom-relief' && testDefinition(test).stage === 'final',
    );
    const soon = open.filter(({ test }) => test !== 'duct-leakage-outdoors');
    const todo = (soon.length > 0 ? soon : open).filter(
      ({ test, subjectId }) =>
        !readings.some(({ file }) => file.test === test && file.subjectId === subjectId),
    );
    if (todo.length === 0) break;
    const some = share < 1 ? todo.slice(0, Math.ceil(todo.length * share)) : todo;
    for (const { test, subjectId } of some) {
      readings.push(take(visit, test, subjectId, minute, null));
      minute += visit.random.integer(2, 5);
    }
    if (share < 1) break;
  }
  return stateOf(visit, readings);
}

/** A reinspection: the tests of the failed items and of those that hang on them are read again. */
export function testAgain(visit: VisitSetting): Tested {
  const { file } = stateOf(visit, visit.before);
  const scorecard = assess(file, visit.rules).scorecard;
  const again = new Set(itemsToRevisit(scorecard).map(({ item, subjectId }) => `${item}/${subjectId}`));
  const verdicts = scorecard.verdicts.filter(({ item, subjectId }) => again.has(`${item}/${subjectId}`));
  const tests = new Set(verdicts.flatMap((verdict) => verdict.tests));
  const subjects = new Set(verdicts.map(({ subjectId }) => subjectId));
  const readings = [...visit.before];
  let minute = 5;
  for (const old of current(visit.before)) {
    const concerned = tests.has(old.test) && (subjects.has(old.subjectId) || subjects.has('house'));
    if (!concerned) continue;
    readings.push(take(visit, old.test, old.subjectId, minute, old.id));
    minute += visit.random.integer(3, 7);
  }
  return testHouse({ ...visit, before: readings });
}
