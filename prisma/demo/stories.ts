import type { Evaluate, ItemVerdict } from '@countercheck/rules';
import { builders, installers, raters } from './cast.ts';
import type { Calendar } from './calendar.ts';
import { bySubject, newHouse, type DemoHouse } from './house.ts';
import type { KitItem } from './kits.ts';
import { overdueRater } from './kits.ts';
import { plans } from './plans.ts';
import { report } from './physics/reported.ts';
import { buildHouse, correct, type Truth } from './physics/truth.ts';
import type { Random } from './random.ts';
import { stateOf, testAgain, testHouse, type DemoReading } from './testing.ts';

export type DemoStage =
  | 'awaiting_figures'
  | 'ready_to_book'
  | 'booked'
  | 'in_testing'
  | 'corrections'
  | 'reinspection_asked'
  | 'in_review'
  | 'returned'
  | 'released';

export interface DemoVisit {
  id: string;
  kind: 'final' | 'reinspection' | 'quality';
  rater: number;
  startsAt: Date;
  endsAt: Date;
  state: 'booked' | 'in_progress' | 'submitted';
  submittedAt: Date | null;
  readings: DemoReading[];
  /** the failures found, as the verdicts stood when it was submitted */
  failed: ItemVerdict[];
}

export interface Story {
  house: DemoHouse;
  stage: DemoStage;
  builder: number;
  installer: number;
  address: string;
  lot: string;
  registeredAt: Date;
  linkSentAt: Date;
  figures: { bySubject: Record<string, Record<string, number>>; signedAt: Date } | null;
  visits: DemoVisit[];
  /** failed items of the first visit and what became of them */
  failed: {
    verdict: ItemVerdict;
    state: 'open' | 'corrected' | 'reinspection_asked' | 'closed';
    correctedAt: Date | null;
  }[];
  askedAt: Date | null;
  returnedAt: Date | null;
}

/** How many houses stand where. */
const population: [DemoStage, number][] = [
  ['awaiting_figures', 7],
  ['ready_to_book', 6],
  ['booked', 9],
  ['in_testing', 4],
  ['corrections', 8],
  ['reinspection_asked', 4],
  ['in_review', 9],
  ['returned', 3],
  ['released', 12],
];

interface Scene {
  calendar: Calendar;
  kits: KitItem[];
  rules: Evaluate;
  random: Random;
}

const hours = (date: Date, count: number) => new Date(date.getTime() + count * 3_600_000);

/** Draws houses by the same trades until one has the wanted outcome, as a real list of houses is sorted by outcome. */
function tested(
  scene: Scene,
  house: DemoHouse,
  builder: number,
  visit: DemoVisit,
  wanted: 'pass' | 'fail' | 'any',
  share: number,
) {
  const { random, calendar, kits, rules } = scene;
  for (let attempt = 0; ; attempt += 1) {
    const workmanship =
      (builders[builder]?.workmanship ?? 0) +
      random.normal(0, 0.5) +
      (wanted === 'fail' ? 0.4 : wanted === 'pass' ? -0.6 : 0);
    const truth: Truth = buildHouse(house.plan, workmanship, random);
    const reported = bySubject(house, report(truth, random, random.chance(0.12) ? 0.1 : 0));
    const setting = {
      id: visit.id,
      house,
      truth,
      reported,
      rater: visit.rater,
      startsAt: visit.startsAt,
      kits,
      rules,
      calendar,
      random,
      before: [],
      useOverdue: share < 1 && visit.rater === overdueRater,
    };
    const result = testHouse(setting, share);
    const failed = result.verdicts.filter(({ status }) => status === 'fail');
    const fits =
      wanted === 'any' || (wanted === 'fail' ? failed.length > 0 && failed.length <= 4 : failed.length === 0);
    if (fits || attempt > 400) return { truth, reported, result, failed, setting };
  }
}

function whenVisited(stage: DemoStage, place: number, random: Random): number {
  if (stage === 'booked') return place < 3 ? 0 : random.integer(1, 6);
  if (stage === 'in_testing') return 0;
  return -random.integer(
    ...(
      {
        released: [16, 60],
        returned: [8, 14],
        in_review: [3, 9],
        reinspection_asked: [5, 12],
        corrections: [1, 10],
      } as Record<string, [number, number]>
    )[stage]!,
  );
}

function story(scene: Scene, stage: DemoStage, place: number, number: number): Story {
  const { random, calendar } = scene;
  const builder = number % builders.length;
  const cast = builders[builder]!;
  const plan = random.pick(plans[builder] ?? []);
  const house = newHouse(plan, cast.community.climateZone, random);
  const untested = stage === 'awaiting_figures' || stage === 'ready_to_book';
  const day = untested ? -random.integer(1, 6) : whenVisited(stage, place, random);
  const registeredAt = calendar.at(Math.min(day, 0) - random.integer(9, 20), 9, random.integer(0, 59));
  const linkSentAt = calendar.atWork(hours(registeredAt, random.integer(20, 60)));
  const base: Story = {
    house,
    stage,
    builder,
    installer: random.integer(0, installers.length - 2),
    address: `${String(3 + number * 2)} ${random.pick(cast.community.streets)}`,
    lot: String(101 + number),
    registeredAt,
    linkSentAt,
    figures: null,
    visits: [],
    failed: [],
    askedAt: null,
    returnedAt: null,
  };
  if (stage === 'awaiting_figures') return base;
  const signedAt = calendar.atWork(hours(linkSentAt, random.integer(18, 90)));
  if (untested) {
    const truth = buildHouse(plan, cast.workmanship, random);
    return { ...base, figures: { bySubject: bySubject(house, report(truth, random, 0)), signedAt } };
  }

  const rater =
    stage === 'in_testing'
      ? (place + 1) % raters.length
      : stage === 'booked' && place < 3
        ? 0
        : random.integer(0, raters.length - 1);
  const first: DemoVisit = {
    id: random.uuid(),
    kind: 'final',
    rater,
    ...(stage === 'in_testing' ? calendar.lately() : calendar.slot(rater, day)),
    state: 'booked',
    submittedAt: null,
    readings: [],
    failed: [],
  };
  const again = stage === 'released' || stage === 'in_review' ? random.chance(0.45) : false;
  const wanted =
    stage === 'corrections' || stage === 'reinspection_asked' || again
      ? 'fail'
      : stage === 'in_testing'
        ? 'any'
        : 'pass';
  const { truth, reported, result, failed, setting } = tested(
    scene,
    house,
    builder,
    first,
    wanted,
    stage === 'in_testing' ? (rater === overdueRater ? 0.9 : 0.55) : 1,
  );
  const figures = {
    bySubject: reported,
    signedAt: signedAt < first.startsAt ? signedAt : hours(first.startsAt, -20),
  };
  if (stage === 'booked') return { ...base, figures, visits: [first] };
  if (stage === 'in_testing')
    return { ...base, figures, visits: [{ ...first, state: 'in_progress', readings: result.readings }] };

  const done: DemoVisit = {
    ...first,
    state: 'submitted',
    submittedAt: hours(first.endsAt, 0.3),
    readings: result.readings,
    failed,
  };
  const told: Story = {
    ...base,
    figures,
    visits: [done],
    failed: failed.map((verdict) => ({ verdict, state: 'open', correctedAt: null })),
  };
  const correctedAt = calendar.atWork(hours(done.submittedAt!, random.integer(6, 15)));
  if (stage === 'corrections')
    return {
      ...told,
      failed: told.failed.map((each, i) =>
        i === 0 && place % 3 === 0 ? { ...each, state: 'corrected', correctedAt } : each,
      ),
    };
  if (stage === 'reinspection_asked') {
    return {
      ...told,
      failed: told.failed.map((each) => ({ ...each, state: 'reinspection_asked', correctedAt })),
      askedAt: calendar.atWork(hours(correctedAt, 3)),
    };
  }
  if (again) {
    const rater2 = (rater + 1) % raters.length;
    const second: DemoVisit = {
      id: random.uuid(),
      kind: 'reinspection',
      rater: rater2,
      ...calendar.slot(rater2, Math.min(-1, day + 5)),
      state: 'submitted',
      submittedAt: null,
      readings: [],
      failed: [],
    };
    const statics = house.systems.map(({ id }) => ({
      supplyStatic: reported[id]?.['supplyStatic'] ?? Infinity,
      returnStatic: reported[id]?.['returnStatic'] ?? Infinity,
    }));
    for (let attempt = 0; attempt < 50; attempt += 1) {
      const result2 = testAgain({
        ...setting,
        id: second.id,
        truth: correct(truth, plan, statics, random),
        rater: rater2,
        startsAt: second.startsAt,
        before: result.readings,
        useOverdue: false,
      });
      if (
        stateOf(setting, result2.readings).verdicts.some(
          ({ status }) => status === 'fail' || status === 'waiting',
        )
      )
        continue;
      second.readings = result2.readings.filter((reading) => !result.readings.includes(reading));
      second.submittedAt = hours(second.endsAt, 0.2);
      return {
        ...told,
        visits: [done, second],
        failed: told.failed.map((each) => ({ ...each, state: 'closed', correctedAt })),
        askedAt: calendar.atWork(hours(correctedAt, 4)),
      };
    }
    throw new Error(`No correction of lot ${base.lot} passes; the physical model and the rules disagree.`);
  }
  return { ...told, returnedAt: stage === 'returned' ? calendar.atWork(hours(done.submittedAt!, 30)) : null };
}

/** Every house of the demo, from its registration to where it stands today. */
export function tellStories(scene: Scene): Story[] {
  const stories: Story[] = [];
  for (const [stage, count] of population) {
    for (let place = 0; place < count; place += 1) stories.push(story(scene, stage, place, stories.length));
  }
  return stories;
}
