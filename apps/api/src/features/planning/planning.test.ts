import { createServer, type RequestListener } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { PlanStop, Visit, WeekPlan } from '@countercheck/contracts';
import type { Prisma, VisitKind } from '@countercheck/prisma';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import { system } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { travelBetween } from './travel.ts';

let test: TestApp;
let office: Client;
let lot = 300;
const inside = <T>(work: (db: Db) => Promise<T>) => test.app.database.as(system, work);
const dayAfter = (days: number) => {
  const monday = new Date(Date.UTC(2099, 0, 5));
  return new Date(monday.getTime() + days * 86_400_000).toISOString().slice(0, 10);
};
const week = { from: dayAfter(0), to: dayAfter(4) };
const needs = { instruments: [['duct-tester']], qualifications: ['airtightness'] };

/** A house some kilometres from the office for which a visit is asked. */
async function ask(own: Partial<Prisma.VisitRequestUncheckedCreateInput> = {}, kilometres = 5) {
  const { ruleSet, builder } = test.company;
  return inside(async (db) => {
    const place = { latitude: 41 + kilometres / 111.2, longitude: -91 };
    const house = await addHouse(db, ruleSet.id, builder, {
      lot: String(lot++),
      stage: 'ready_to_book',
      ...(kilometres >= 0 ? place : {}),
    });
    const request = await db.visitRequest.create({
      data: {
        ...{ houseId: house.id, kind: 'final' as VisitKind, source: 'office', minutes: 120, needs },
        ...{ earliestOn: new Date(week.from), askedByName: 'Site Office', ...own },
      },
    });
    return { house, request };
  });
}

async function planned(body: object = {}): Promise<WeekPlan> {
  const raterIds = [test.company.users.rater.id, test.company.users.otherRater.id];
  const answer = await office.post('/plans', { ...week, raterIds, seconds: 1, ...body });
  expect(answer.statusCode, answer.body).toBe(201);
  const { id } = answer.json<WeekPlan>();
  let seen: WeekPlan | undefined;
  await expect
    .poll(async () => (seen = (await office.get(`/plans/${id}`)).json<WeekPlan>()).state, {
      timeout: 40_000,
      interval: 100,
    })
    .not.toMatch(/waiting|running/);
  expect(seen!.problem).toBeNull();
  return seen!;
}
const stopsOf = (plan: WeekPlan) => plan.days.flatMap(({ stops }) => stops);
const ofHouse = (plan: WeekPlan, houseId: string): PlanStop =>
  stopsOf(plan).find(({ house }) => house.id === houseId)!;
const raterOf = (plan: WeekPlan, houseId: string) =>
  plan.days.find(({ stops }) => stops.some(({ house }) => house.id === houseId))?.rater.id;
const accept = async (plan: WeekPlan, stops: readonly PlanStop[]) => {
  const answer = await office.post(`/plans/${plan.id}/acceptance`, { stopIds: stops.map(({ id }) => id) });
  expect(answer.statusCode, answer.body).toBe(200);
  return answer.json<WeekPlan>();
};
const visits = () => inside((db) => db.visit.findMany({ where: { state: 'booked' } }));

beforeAll(async () => {
  test = await startApp();
  office = await test.as('office');
  const { rater, otherRater } = test.company.users;
  await inside(async (db) => {
    await db.company.updateMany({ data: { officeLatitude: 41, officeLongitude: -91 } });
    const hours = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', to: '16:30' }));
    for (const { id: userId } of [rater, otherRater]) {
      await db.raterProfile.create({
        data: { userId, qualifications: ['airtightness'], workingHours: hours, startsAtHome: false },
      });
      const calibrations = {
        create: { calibratedOn: new Date('2098-06-01'), dueOn: new Date('2100-06-01') },
      };
      await db.instrument.create({
        data: {
          ...{ kind: 'duct-tester', label: `Tester of ${userId}`, serial: userId, carriedById: userId },
          ...{ accuracyPercent: 3, accuracyAbsolute: 1, calibrations },
        },
      });
    }
  });
});
beforeEach(() =>
  inside(async (db) => {
    await db.visitRequest.updateMany({ data: { state: 'withdrawn' } });
    await db.visit.updateMany({ where: { state: 'booked' }, data: { state: 'cancelled' } });
  }),
);
afterAll(() => test.close());

describe('a plan', () => {
  it('proposes, and books nothing until it is accepted, one by one or whole', async () => {
    const asked = [await ask(), await ask({}, 6), await ask({}, 30)];
    const plan = await planned();
    expect(plan).toMatchObject({ state: 'done', proposed: 3, accepted: 0, unplaced: 0, notes: [] });
    expect(plan.travel).toEqual({ circuity: 1.3, speed: 40, extraMinutes: 3, service: false, trouble: null });
    expect(plan.driveKm).toBeGreaterThan(2 * 1.3 * 5);
    expect(await visits()).toEqual([]);

    const [first, ...others] = stopsOf(plan);
    const once = await accept(plan, [first!]);
    expect(once).toMatchObject({ proposed: 2, accepted: 1 });
    const [booked] = await visits();
    expect(booked).toMatchObject({
      ...{ houseId: first!.house.id, kind: 'final' },
      raterId: raterOf(plan, first!.house.id),
      startsAt: new Date(first!.startsAt),
    });
    const request = asked.find(({ house }) => house.id === first!.house.id)!.request.id;
    expect(await inside((db) => db.visitRequest.findUnique({ where: { id: request } }))).toMatchObject({
      ...{ state: 'booked', visitId: booked!.id },
    });

    const rejected = await office.post(`/plans/${plan.id}/rejection`, { stopIds: [others[0]!.id] });
    expect(rejected.json()).toMatchObject({ proposed: 1 });
    const whole = await accept(plan, others);
    expect(whole).toMatchObject({ proposed: 0, accepted: 2 });
    expect(await visits()).toHaveLength(2);
    const again = await office.post(`/plans/${plan.id}/acceptance`, { stopIds: others.map(({ id }) => id) });
    expect(again.json()).toMatchObject({ code: 'conflict' });
    const events = await inside((db) => db.event.findMany({ where: { recordId: plan.id } }));
    expect(events.map(({ action }) => action)).toEqual(
      expect.arrayContaining(['week plan asked', 'week plan ended', 'planned visits accepted']),
    );
  });

  it('keeps what is booked, and drives from there', async () => {
    const { house } = await ask();
    const other = await ask({}, 5);
    const { rater } = test.company.users;
    const at = `${dayAfter(1)}T16:00:00.000Z`;
    await office.post('/visits', {
      ...{ houseId: house.id, raterId: rater.id, kind: 'final', startsAt: at },
      endsAt: `${dayAfter(1)}T18:00:00.000Z`,
    });
    const plan = await planned({ raterIds: [rater.id] });
    expect(ofHouse(plan, house.id)).toMatchObject({ state: 'kept', startsAt: at, before: null });
    expect(ofHouse(plan, other.house.id)).toMatchObject({ state: 'proposed', requestId: other.request.id });
  });

  it('sends another rater to a reinspection, and never the first one to a quality visit', async () => {
    const { rater, otherRater } = test.company.users;
    const again = await ask({ kind: 'reinspection', avoidRaterId: rater.id });
    const look = await ask({ kind: 'quality', avoidRaterId: rater.id });
    const plan = await planned();
    expect(raterOf(plan, again.house.id)).toBe(otherRater.id);
    expect(raterOf(plan, look.house.id)).toBe(otherRater.id);
    const alone = await planned({ raterIds: [rater.id] });
    expect(raterOf(alone, again.house.id)).toBe(rater.id);
    expect(alone.unplacedVisits).toMatchObject([
      { houseId: look.house.id, why: expect.stringContaining('did the work that it looks at') },
    ]);
  });

  it('goes only when somebody is there', async () => {
    const early = await ask({ openFrom: '08:00', openTo: '10:45' });
    const late = await ask({ openFrom: '13:00', openTo: '15:15' });
    const short = await ask({ openFrom: '09:00', openTo: '10:30' });
    const plan = await planned({ raterIds: [test.company.users.rater.id] });
    // Central time in January is six hours behind.
    const clock = ({ startsAt, endsAt }: PlanStop) =>
      [startsAt, endsAt].map((at) => new Date(Date.parse(at) - 6 * 3_600_000).toISOString().slice(11, 16));
    const [from, to] = clock(ofHouse(plan, early.house.id));
    expect(from! >= '08:00' && to! <= '10:45').toBe(true);
    const [after, until] = clock(ofHouse(plan, late.house.id));
    expect(after! >= '13:00' && until! <= '15:15').toBe(true);
    expect(plan.unplacedVisits).toMatchObject([{ houseId: short.house.id }]);
  });

  it('says why a visit finds no place', async () => {
    const nowhere = await ask({}, -1);
    const unskilled = await ask({ needs: { instruments: [], qualifications: ['combustion-safety'] } });
    const bare = await ask({ needs: { instruments: [['flow-hood', 'vane-meter']], qualifications: [] } });
    const past = await ask({ earliestOn: new Date('2098-12-01'), deadlineOn: new Date('2098-12-31') });
    const plan = await planned();
    const why = new Map(plan.unplacedVisits.map((each) => [each.houseId, each.why]));
    expect(why.get(nowhere.house.id)).toMatch(/has coordinates/);
    expect(why.get(unskilled.house.id)).toMatch(/qualification it needs: combustion safety/);
    expect(why.get(bare.house.id)).toMatch(/in calibration: flow hood or vane meter/);
    expect(why.get(past.house.id)).toMatch(/deadline has passed before this plan begins: Wed, Dec 31/);
  });

  it('does not send two raters into one house at once', async () => {
    const { rater, otherRater } = test.company.users;
    const twice = await ask({ kind: 'rough' });
    const again = { houseId: twice.house.id, source: 'office' as const, minutes: 120, needs };
    const asked = { ...again, earliestOn: new Date(week.from), askedByName: 'Site Office' };
    await inside((db) => db.visitRequest.create({ data: { ...asked, kind: 'final' } }));
    const first = await planned();
    expect(ofHouse(first, twice.house.id).kind).toBe('rough');
    expect(first.unplacedVisits).toMatchObject([
      { houseId: twice.house.id, kind: 'final', why: expect.stringMatching(/comes first/) },
    ]);
    // Booked with somebody who is not in the plan: the other visit goes around that time.
    await inside((db) =>
      db.visitRequest.updateMany({
        where: { houseId: twice.house.id, kind: 'rough' },
        data: { state: 'withdrawn' },
      }),
    );
    const booked = { startsAt: `${week.from}T15:00:00Z`, endsAt: `${week.from}T17:00:00Z` };
    await inside((db) =>
      db.visit.create({
        data: { houseId: twice.house.id, raterId: otherRater.id, kind: 'rough', ...booked },
      }),
    );
    const around = ofHouse(await planned({ raterIds: [rater.id], to: week.from }), twice.house.id);
    expect(
      around.endsAt <= new Date(booked.startsAt).toISOString() ||
        around.startsAt >= new Date(booked.endsAt).toISOString(),
    ).toBe(true);
  });

  it('leaves out a rater who is held, and says so', async () => {
    const { otherRater, quality } = test.company.users;
    const { house } = await ask();
    const hold = await inside((db) =>
      db.raterHold.create({
        data: {
          ...{
            raterId: otherRater.id,
            from: new Date(`${week.from}T00:00:00Z`),
            reason: 'Readings look alike',
          },
          ...{ placedById: quality.id, placedBy: quality.name },
        },
      }),
    );
    const plan = await planned();
    expect(plan.notes).toEqual([expect.stringMatching(/is held since 2099-01-05: Readings look alike/)]);
    expect(raterOf(plan, house.id)).toBe(test.company.users.rater.id);
    await inside((db) => db.raterHold.update({ where: { id: hold.id }, data: { liftedAt: new Date() } }));
  });
});

describe('days off', () => {
  const enter = async (body: object) => {
    const answer = await office.post('/days-off', body);
    expect(answer.statusCode, answer.body).toBe(201);
    return answer.json<{ id: string }>().id;
  };

  it('keep a rater or everybody at home, say so, and give away what is booked when it is planned again', async () => {
    const { rater, otherRater } = test.company.users;
    const asked = [await ask(), await ask(), await ask()];
    const vacation = { raterId: otherRater.id, from: dayAfter(0), to: dayAfter(4), why: 'Vacation' };
    const ids = [
      await enter(vacation),
      await enter({ raterId: null, from: dayAfter(0), to: dayAfter(3), why: 'Founders’ days' }),
    ];
    const plan = await planned();
    for (const { house } of asked) expect(raterOf(plan, house.id)).toBe(rater.id);
    expect(plan.days.map(({ date }) => date)).toEqual([dayAfter(4)]);
    expect(plan.notes).toContain('Mon, Jan 5: nobody works, Founders’ days.');
    expect(plan.notes.filter((note) => note.endsWith('Fri, Jan 9: away, Vacation.'))).toHaveLength(1);
    await accept(plan, stopsOf(plan));

    // The rater falls ill on the day for which he is booked.
    ids.push(await enter({ raterId: rater.id, from: dayAfter(4), to: dayAfter(4), why: 'Ill' }));
    const board = (await office.get(`/board?from=${week.from}`)).json<{
      daysOff: { why: string }[];
      visits: { warnings: { code: string; text: string }[] }[];
    }>();
    expect(board.daysOff.map(({ why }) => why)).toEqual(['Founders’ days', 'Vacation', 'Ill']);
    for (const { warnings } of board.visits)
      expect(warnings).toContainEqual({ code: 'away', text: `${rater.name} is away on Fri, Jan 9: Ill` });
    await office.delete(`/days-off/${ids[0]}`);
    const untouched = await planned();
    expect(untouched.notes.filter((note) => /a day off \(Ill\)/.test(note))).toHaveLength(3);
    const again = await planned({ replan: true });
    for (const { house } of asked) expect(raterOf(again, house.id)).toBe(otherRater.id);
    for (const id of ids.slice(1)) expect((await office.delete(`/days-off/${id}`)).statusCode).toBe(200);
    expect((await office.get('/days-off')).json()).toEqual([]);
    expect((await office.delete(`/days-off/${ids[1]}`)).json().code).toBe('not-found');
  });

  it('that everybody has leave every visit without a place, with a reason', async () => {
    await ask();
    const id = await enter({ raterId: null, from: week.from, to: week.to, why: 'Snow' });
    const plan = await planned();
    expect(plan.days).toEqual([]);
    expect(plan.unplacedVisits[0]?.why).toMatch(/works long enough.*days off/);
    await office.delete(`/days-off/${id}`);
  });

  it.each([
    ['an end before the start', { raterId: null, from: dayAfter(2), to: dayAfter(1), why: 'x' }, 'to'],
    [
      'somebody who is no rater',
      { raterId: 'office', from: dayAfter(2), to: dayAfter(2), why: 'x' },
      'raterId',
    ],
    ['no reason', { raterId: null, from: dayAfter(2), to: dayAfter(2), why: ' ' }, 'why'],
  ])('refuse %s', async (_, body, path) => {
    const raterId = body.raterId && test.company.users.office.id;
    const answer = await office.post('/days-off', { ...body, raterId });
    expect(answer.json().fields[0].path).toBe(path);
  });
});

describe('a proposal that has gone stale', () => {
  it('is refused in words, and the others are booked', async () => {
    const [one, two, three] = [await ask(), await ask(), await ask()];
    const plan = await planned();
    await inside((db) =>
      db.visitRequest.update({ where: { id: one.request.id }, data: { state: 'withdrawn' } }),
    );
    const stop = ofHouse(plan, two.house.id);
    const away = await inside((db) =>
      addHouse(db, test.company.ruleSet.id, test.company.builder, { lot: String(lot++) }),
    );
    const taken = await office.post('/visits', {
      ...{ houseId: away.id, raterId: raterOf(plan, two.house.id), kind: 'final' },
      ...{ startsAt: stop.startsAt, endsAt: stop.endsAt },
    });
    expect(taken.statusCode, taken.body).toBe(201);
    const after = await accept(plan, stopsOf(plan));
    expect(ofHouse(after, one.house.id)).toMatchObject({
      ...{ state: 'proposed', refusal: expect.stringMatching(/withdrawn/) },
    });
    expect(ofHouse(after, two.house.id).refusal).toContain(`is at ${away.address} then`);
    expect(ofHouse(after, three.house.id)).toMatchObject({ state: 'accepted', refusal: null });
  });

  it('is refused when the rater is held meanwhile', async () => {
    const { rater, quality } = test.company.users;
    const { house } = await ask();
    const plan = await planned({ raterIds: [rater.id] });
    const hold = await inside((db) =>
      db.raterHold.create({
        data: {
          ...{ raterId: rater.id, from: new Date('2098-01-01T00:00:00Z'), reason: 'Re-test pending' },
          ...{ placedById: quality.id, placedBy: quality.name },
        },
      }),
    );
    const after = await accept(plan, stopsOf(plan));
    expect(ofHouse(after, house.id).refusal).toMatch(/is held since/);
    await inside((db) => db.raterHold.update({ where: { id: hold.id }, data: { liftedAt: new Date() } }));
  });
});

describe('visits that exchange their times', () => {
  const times = (day: number, hour: number) => ({
    startsAt: `${dayAfter(day)}T${hour}:00:00.000Z`,
    endsAt: `${dayAfter(day)}T${hour + 2}:00:00.000Z`,
  });
  let plan: WeekPlan | undefined;
  /** Booked visits, one a rater and hour, and a plan in which each goes where the next one stands. */
  async function exchanged(places: readonly (readonly [rater: 'rater' | 'otherRater', hour: number])[]) {
    plan ??= await planned({ raterIds: [test.company.users.rater.id] });
    const planId = plan.id;
    await inside((db) => db.plannedVisit.deleteMany({ where: { planId } }));
    const booked: Visit[] = [];
    for (const [rater, hour] of places) {
      const { house } = await ask();
      const body = { houseId: house.id, raterId: test.company.users[rater].id, kind: 'final' };
      booked.push((await office.post('/visits', { ...body, ...times(3, hour) })).json<Visit>());
    }
    const rows = booked.map((visit, i) => {
      const next = booked[(i + 1) % booked.length]!;
      return {
        ...{ planId, raterId: next.rater.id, houseId: visit.house.id, kind: 'final' as const },
        ...{ startsAt: new Date(next.startsAt), endsAt: new Date(next.endsAt), state: 'proposed' as const },
        ...{ visitId: visit.id, latitude: 41, longitude: -91, driveMinutes: 10, driveKm: 5 },
        ...{ beforeRaterId: visit.rater.id, beforeRater: visit.rater.name },
        ...{ beforeStartsAt: new Date(visit.startsAt), beforeEndsAt: new Date(visit.endsAt) },
      };
    });
    await inside((db) => db.plannedVisit.createMany({ data: rows }));
    const stops = await inside((db) => db.plannedVisit.findMany({ where: { planId } }));
    const answer = () => office.post(`/plans/${planId}/acceptance`, { stopIds: stops.map(({ id }) => id) });
    const now = async () =>
      (await inside((db) => db.visit.findMany({ where: { id: { in: booked.map(({ id }) => id) } } })))
        .toSorted(
          (a, b) => booked.findIndex(({ id }) => id === a.id) - booked.findIndex(({ id }) => id === b.id),
        )
        .map(({ raterId, startsAt, sequence }) => ({ raterId, startsAt: startsAt.toISOString(), sequence }));
    return { planId, booked, rows, answer, now };
  }

  it.each([
    [
      'two of one rater',
      [
        ['rater', 14],
        ['rater', 16],
      ],
    ],
    [
      'two of two raters',
      [
        ['rater', 14],
        ['otherRater', 14],
      ],
    ],
    [
      'three in a ring',
      [
        ['rater', 14],
        ['otherRater', 14],
        ['rater', 17],
      ],
    ],
  ] as const)('all move at once: %s', async (_, places) => {
    const { rows, answer, now } = await exchanged(places);
    const after = await answer();
    expect(after.statusCode, after.body).toBe(200);
    expect(after.json()).toMatchObject({ proposed: 0, accepted: places.length });
    // Each has moved once: a calendar hears of one change.
    expect(await now()).toEqual(
      rows.map(({ raterId, startsAt }) => ({ raterId, startsAt: startsAt.toISOString(), sequence: 1 })),
    );
  });

  it('stay as they are when one of them cannot go, and say so', async () => {
    const { planId, booked, answer, now } = await exchanged([
      ['rater', 14],
      ['otherRater', 14],
    ]);
    const before = await now();
    const away = (await ask()).house;
    // The time that both want is partly taken by a third, who is in no exchange.
    await office.patch(`/visits/${booked[1]!.id}`, times(3, 15));
    const body = { houseId: away.id, raterId: booked[1]!.rater.id, kind: 'final' };
    const taken = await office.post('/visits', { ...body, ...times(3, 17) });
    expect(taken.statusCode, taken.body).toBe(201);
    await inside((db) =>
      db.plannedVisit.updateMany({
        where: { planId, visitId: booked[1]!.id },
        data: {
          beforeStartsAt: new Date(times(3, 15).startsAt),
          beforeEndsAt: new Date(times(3, 15).endsAt),
        },
      }),
    );
    await inside((db) =>
      db.plannedVisit.updateMany({
        where: { planId, visitId: booked[0]!.id },
        data: { startsAt: new Date(times(3, 16).startsAt), endsAt: new Date(times(3, 16).endsAt) },
      }),
    );
    const after = (await answer()).json<WeekPlan>();
    expect(after).toMatchObject({ accepted: 0 });
    expect((await now())[0]).toEqual(before[0]);
    const refusals = await inside((db) =>
      db.plannedVisit.findMany({ where: { planId }, select: { refusal: true } }),
    );
    for (const { refusal } of refusals) expect(refusal).toMatch(/exchanges its time/);
    expect(refusals.some(({ refusal }) => refusal?.includes(away.address))).toBe(true);
  });
});

describe('planning again', () => {
  it('gives the visits of a rater who is away to another, and leaves the others alone', async () => {
    const { rater, otherRater } = test.company.users;
    const [one, two] = [await ask(), await ask()];
    const book = async (houseId: string, raterId: string, hour: number) =>
      (
        await office.post('/visits', {
          ...{ houseId, raterId, kind: 'final', startsAt: `${dayAfter(0)}T${hour}:00:00.000Z` },
          endsAt: `${dayAfter(0)}T${hour + 2}:00:00.000Z`,
        })
      ).json<Visit>();
    const ill = await book(one.house.id, rater.id, 15);
    const well = await book(two.house.id, otherRater.id, 15);
    const body = { ...week, replan: true, raterIds: [otherRater.id], awayRaterIds: [rater.id] };
    const plan = await planned(body);
    expect(ofHouse(plan, two.house.id)).toMatchObject({ state: 'kept', visitId: well.id });
    expect(ofHouse(plan, one.house.id)).toMatchObject({
      ...{ state: 'proposed', visitId: ill.id },
      before: { rater: rater.name, startsAt: ill.startsAt },
    });
    const after = await accept(
      plan,
      stopsOf(plan).filter(({ state }) => state === 'proposed'),
    );
    expect(after).toMatchObject({ accepted: 1, proposed: 0 });
    const moved = (await office.get(`/visits/${ill.id}`)).json<Visit>();
    expect(moved).toMatchObject({ rater: { id: otherRater.id }, state: 'booked' });

    const stale = await planned(body);
    expect(stale.proposed).toBe(0);
  });

  it('refuses to move what was moved by hand since', async () => {
    const { rater, otherRater } = test.company.users;
    const { house } = await ask();
    const times = { startsAt: `${dayAfter(2)}T15:00:00.000Z`, endsAt: `${dayAfter(2)}T17:00:00.000Z` };
    const body = { houseId: house.id, raterId: rater.id, kind: 'final', ...times };
    const { id } = (await office.post('/visits', body)).json<Visit>();
    const plan = await planned({ replan: true, raterIds: [otherRater.id], awayRaterIds: [rater.id] });
    const later = { startsAt: `${dayAfter(3)}T15:00:00.000Z`, endsAt: `${dayAfter(3)}T17:00:00.000Z` };
    await office.patch(`/visits/${id}`, later);
    const after = await accept(plan, stopsOf(plan));
    expect(ofHouse(after, house.id).refusal).toMatch(/was moved, begun or cancelled since/);
  });

  it.each([
    ['raters who are away without planning again', { awayRaterIds: ['rater'] }, 'awayRaterIds'],
    ['days that are over', { from: '2020-01-06', to: '2020-01-10' }, 'to'],
    ['three weeks at once', { to: '2099-01-25' }, 'to'],
    ['somebody who is no rater', { raterIds: ['office'] }, 'raterIds'],
  ])('refuses %s', async (_, own, path) => {
    const id = (who: string) => test.company.users[who as 'office'].id;
    const ids = Object.fromEntries(
      Object.entries(own).map(([key, value]) => [key, Array.isArray(value) ? value.map(id) : value]),
    );
    const answer = await office.post('/plans', { ...week, raterIds: [id('otherRater')], ...ids });
    expect(answer.json()).toMatchObject({ code: 'invalid-input', fields: [{ path }] });
  });
});

describe('the routing service', () => {
  const settings = { officeLatitude: 41, officeLongitude: -91, circuity: 1.3, speed: 40 };
  const withService = async (listener: RequestListener, work: () => Promise<void>) => {
    const server = createServer(listener).listen(0);
    const admin = await test.as('administrator');
    const routingUrl = `http://127.0.0.1:${(server.address() as AddressInfo).port}/table`;
    try {
      expect((await admin.put('/planning-settings', { ...settings, routingUrl })).statusCode).toBe(200);
      await work();
    } finally {
      await admin.put('/planning-settings', { ...settings, routingUrl: null });
      server.close();
    }
  };

  it('is asked for all places at once, and believed', async () => {
    const { house } = await ask();
    const heard: { places: { latitude: number }[] }[] = [];
    await withService(
      (request, response) => {
        let text = '';
        request.on('data', (piece: Buffer) => (text += piece.toString()));
        request.on('end', () => {
          heard.push(JSON.parse(text));
          const minutes = [
            [0, 37],
            [41, 0],
          ];
          response.end(JSON.stringify({ minutes, kilometres: minutes }));
        });
      },
      async () => {
        const plan = await planned();
        expect(plan.travel).toMatchObject({ service: true, trouble: null });
        expect(ofHouse(plan, house.id)).toMatchObject({ driveMinutes: 37 });
        expect(plan).toMatchObject({ driveMinutes: 78, driveKm: 78 });
      },
    );
    expect(heard).toEqual([{ places: expect.arrayContaining([{ latitude: 41, longitude: -91 }]) }]);
  });

  it.each([
    ['an error', 500, '{}', 'it answered 500'],
    ['nonsense', 200, '<html>', 'its answer is no table of 2 by 2 minutes'],
    ['a table of another size', 200, '{"minutes":[[0]]}', 'its answer is no table of 2 by 2 minutes'],
  ])('does not hold up a plan with %s', async (_, status, body, words) => {
    const server = createServer((_request, response) => response.writeHead(status).end(body)).listen(0);
    const routingUrl = `http://127.0.0.1:${(server.address() as AddressInfo).port}/table`;
    const places = [
      { latitude: 41, longitude: -91 },
      { latitude: 41.1, longitude: -91 },
    ];
    const own = { travelCircuity: 1.3, travelSpeed: 40, routingUrl };
    const found = await travelBetween(places, own, new AbortController().signal);
    server.close();
    expect(found.source).toMatchObject({ service: false, trouble: expect.stringContaining(words) });
    expect(found.table.minutes[1]).toBeCloseTo((1.3 * 11.12 * 60) / 40 + 3, 1);
  });

  it('is set by the administrator alone, with an address', async () => {
    const admin = await test.as('administrator');
    const body = { ...settings, routingUrl: 'file:///etc/passwd' };
    expect((await admin.put('/planning-settings', body)).json()).toMatchObject({
      ...{ code: 'invalid-input', fields: [{ path: 'routingUrl' }] },
    });
    // What a cloud tells its machines about themselves is not asked, however the address is written.
    for (const host of ['169.254.169.254', '2852039166', '[::ffff:a9fe:a9fe]', '[fe80::1]', '0.0.0.0'])
      expect(
        (await admin.put('/planning-settings', { ...settings, routingUrl: `http://${host}/x` })).json(),
        host,
      ).toMatchObject({ fields: [{ path: 'routingUrl', message: expect.stringMatching(/leads to/) }] });
    expect((await office.put('/planning-settings', settings)).json()).toMatchObject({ code: 'not-allowed' });
    expect((await office.get('/planning-settings')).json()).toEqual({ ...settings, routingUrl: null });
  });
});

it('is cancelled while it is worked out, and leaves nothing', async () => {
  await Promise.all(Array.from({ length: 4 }, () => ask()));
  const raterIds = [test.company.users.rater.id];
  const { id } = (await office.post('/plans', { ...week, raterIds, seconds: 60 })).json<WeekPlan>();
  await expect
    .poll(async () => (await office.get(`/plans/${id}`)).json<WeekPlan>().state, { timeout: 20_000 })
    .toBe('running');
  expect((await office.post(`/plans/${id}/cancel`)).statusCode).toBe(200);
  await expect
    .poll(async () => (await office.get(`/plans/${id}`)).json<WeekPlan>().state, { timeout: 20_000 })
    .toBe('cancelled');
  expect(await inside((db) => db.plannedVisit.count({ where: { planId: id } }))).toBe(0);
  const accepted = await office.post(`/plans/${id}/acceptance`, { stopIds: [id] });
  expect(accepted.json()).toMatchObject({ code: 'conflict' });
});
