import type { TestKey } from '@countercheck/measurement';
import type { Evaluate, ItemVerdict } from '@countercheck/rules';
import type { Calendar } from '../calendar.ts';
import { builders, installers, raters } from '../cast.ts';
import { bySubject, newHouse, type DemoHouse } from '../house.ts';
import type { KitItem } from '../kits.ts';
import { report } from '../physics/reported.ts';
import { buildHouse, type Truth } from '../physics/truth.ts';
import { Random } from '../random.ts';
import type { DemoVisit, Story } from '../stories.ts';
import { stateOf, take, type DemoReading, type VisitSetting } from '../testing.ts';
import { cottages } from './plans.ts';

/** The rater of the demo who writes down what the installer reported. */
export const copyingRater = 1;

/** A house of the past year, with the day on which its file was released. */
export interface YearStory extends Story {
  releasedAt: Date;
  /** the visit of another rater who measured everything again afterwards */
  retest: DemoVisit | null;
}

const housesPerRater = 30;
const firstDay = -362;
const lastDay = -22;

interface Scene {
  calendar: Calendar;
  kits: KitItem[];
  earlier: KitItem[];
  rules: Evaluate;
  random: Random;
}

const hours = (date: Date, count: number) => new Date(date.getTime() + count * 3_600_000);

/** Every test that a small house with exhaust ventilation and nothing that burns may need, on each subject. */
function tasks(house: DemoHouse): { test: TestKey; subjectId: string }[] {
  const rooms = (kind: string, test: TestKey) =>
    house.rooms.filter((room) => room.kind === kind).map(({ id }) => ({ test, subjectId: id }));
  return [
    ...house.systems.flatMap(({ id }) =>
      (['supply-static', 'return-static', 'duct-leakage-total', 'duct-leakage-outdoors'] as const).map(
        (test) => ({ test, subjectId: id }),
      ),
    ),
    { test: 'envelope-leakage', subjectId: 'house' },
    ...rooms('bedroom', 'bedroom-pressure'),
    { test: 'whole-house-ventilation', subjectId: 'ventilator' },
    ...rooms('kitchen', 'kitchen-exhaust'),
    ...rooms('bath', 'bath-exhaust'),
  ];
}

/** The kit as it stood on the day: each instrument under the calibration that was in force. */
function kitsOn({ kits, earlier, calendar }: Scene, at: Date): KitItem[] {
  const day = calendar.dayOf(at);
  return kits.map((item, i) => (item.calibratedOn <= day ? item : earlier[i]!));
}

function readAll(setting: VisitSetting): DemoReading[] {
  let minute = 4;
  return tasks(setting.house).map(({ test, subjectId }) => {
    const reading = take(setting, test, subjectId, minute, null);
    minute += setting.random.integer(4, 9);
    return reading;
  });
}

const failedOf = (verdicts: ItemVerdict[]) => verdicts.filter(({ status }) => status === 'fail');
const settled = (verdicts: ItemVerdict[]) =>
  verdicts.every(({ status }) => status !== 'fail' && status !== 'waiting');

/** A house that passes, and the readings that say so. */
function passing(setting: Omit<VisitSetting, 'truth' | 'reported'>, workmanship: number) {
  for (let attempt = 0; attempt < 400; attempt += 1) {
    const { house, random } = setting;
    const truth = buildHouse(house.plan, workmanship + random.normal(-0.9, 0.5), random);
    const reported = bySubject(house, report(truth, random, random.chance(0.12) ? 0.05 : 0));
    const whole: VisitSetting = { ...setting, truth, reported };
    const readings = readAll(whole);
    if (settled(stateOf(whole, readings).verdicts)) return { whole, readings };
  }
  throw new Error('No small house passes; the physical model and the rules disagree.');
}

/** The same house before its ducts were sealed, and the second visit that found them tight. */
function firstFailing(whole: VisitSetting, again: Pick<VisitSetting, 'id' | 'rater' | 'startsAt' | 'kits'>) {
  const { house, truth, random } = whole;
  const most = (house.plan.conditionedFloorArea / 100) * 6 * random.between(1.08, 1.5);
  const leaky: Truth = {
    ...truth,
    systems: truth.systems.map((system) => ({ ...system, leakage: most / truth.systems.length })),
  };
  const before = readAll({ ...whole, truth: leaky });
  const failed = failedOf(stateOf(whole, before).verdicts);
  let minute = 5;
  const second = before
    .filter(({ file }) => file.test.startsWith('duct-leakage'))
    .map(({ file }) => {
      const reading = take({ ...whole, ...again }, file.test, file.subjectId, minute, file.id);
      minute += random.integer(6, 11);
      return reading;
    });
  return { before, failed, second, settled: settled(stateOf(whole, [...before, ...second]).verdicts) };
}

/** A colleague's evening in the house; drawn apart, so that no other house hangs on it. */
function measuredAgain(scene: Scene, whole: VisitSetting, number: number, day: number): DemoVisit {
  const { calendar } = scene;
  const random = new Random(7_000_000 + number);
  const rater = (whole.rater + 1 + (number % (raters.length - 1))) % raters.length;
  const startsAt = calendar.at(day, 17, 30);
  const id = random.uuid();
  const setting = {
    ...whole,
    ...{ id, rater, startsAt, random, copies: false },
    kits: kitsOn(scene, startsAt),
  };
  const endsAt = hours(startsAt, 1.5);
  return {
    ...{ id, kind: 'quality', rater, startsAt, endsAt, state: 'submitted', submittedAt: endsAt },
    ...{ readings: readAll(setting), failed: [] },
  };
}

function houseOfTheYear(scene: Scene, number: number): YearStory {
  const { calendar, random } = scene;
  const rater = number % raters.length;
  const builder = number % builders.length;
  const cast = builders[builder]!;
  const plan = cottages[builder]!;
  const house = newHouse(plan, cast.community.climateZone, random);
  const through = number / (housesPerRater * raters.length);
  const day = Math.round(firstDay + (lastDay - firstDay) * through);
  const times = calendar.slot(rater, day);
  const visit: DemoVisit = {
    id: random.uuid(),
    kind: 'final',
    rater,
    ...times,
    state: 'submitted',
    submittedAt: hours(times.endsAt, 0.25),
    readings: [],
    failed: [],
  };
  const setting = {
    id: visit.id,
    house,
    rater,
    startsAt: times.startsAt,
    kits: kitsOn(scene, times.startsAt),
    rules: scene.rules,
    calendar,
    random,
    before: [],
    useOverdue: false,
    copies: rater === copyingRater,
  };
  const releaseAfter = (submitted: Date) => calendar.atWork(hours(submitted, random.integer(18, 70)));
  const { whole, readings } = passing(setting, cast.workmanship);
  const registeredAt = calendar.at(day - random.integer(12, 22), 9, random.integer(0, 59));
  const linkSentAt = calendar.atWork(hours(registeredAt, random.integer(20, 60)));
  const signedAt = calendar.atWork(hours(linkSentAt, random.integer(18, 90)));
  const told: YearStory = {
    house,
    stage: 'released',
    builder,
    installer: random.integer(0, installers.length - 2),
    address: `${String(2 + number * 2)} ${random.pick(cast.community.streets)}`,
    lot: String(401 + number),
    registeredAt,
    linkSentAt,
    figures: { bySubject: whole.reported, signedAt },
    visits: [{ ...visit, readings }],
    failed: [],
    askedAt: null,
    returnedAt: null,
    releasedAt: releaseAfter(visit.submittedAt!),
    retest: null,
  };
  if (number % 13 === 6) told.retest = measuredAgain(scene, whole, number, day + 12);
  // Somebody who writes down what was reported finds nothing wrong.
  if (number % 9 !== 4 || rater === copyingRater) return told;
  const rater2 = (rater + 2) % raters.length;
  const slot2 = calendar.slot(rater2, day + 6);
  const again = { id: random.uuid(), rater: rater2, startsAt: slot2.startsAt };
  const found = firstFailing(whole, {
    ...again,
    kits: kitsOn(scene, slot2.startsAt),
  });
  if (!found.settled) return told;
  const correctedAt = calendar.atWork(hours(visit.submittedAt!, random.integer(8, 30)));
  const submittedAgain = hours(slot2.endsAt, 0.2);
  return {
    ...told,
    releasedAt: releaseAfter(submittedAgain),
    visits: [
      { ...visit, readings: found.before, failed: found.failed },
      {
        ...visit,
        ...{ id: again.id, kind: 'reinspection', rater: rater2, ...slot2 },
        submittedAt: submittedAgain,
        readings: found.second,
      },
    ],
    failed: found.failed.map((verdict) => ({ verdict, state: 'closed', correctedAt })),
    askedAt: calendar.atWork(hours(correctedAt, 4)),
  };
}

/** The small houses that were tested and released in the past twelve months, oldest first. */
export function tellYear(scene: Scene): YearStory[] {
  return Array.from({ length: housesPerRater * raters.length }, (_, number) => houseOfTheYear(scene, number));
}
