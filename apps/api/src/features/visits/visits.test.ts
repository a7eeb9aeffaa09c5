import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Visit } from '@countercheck/contracts';
import { withClient } from '@countercheck/host/database';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import { system } from '../../kernel/actor.ts';

let t: TestApp;
let office: Client;
let hours = 24 * 30;
beforeAll(async () => {
  t = await startApp();
  office = await t.as('office');
});
afterAll(() => t.close());

const owner = <T extends object>(sql: string, values: unknown[] = []) =>
  withClient(t.urls.ownerUrl, async (client) => (await client.query<T>(sql, values)).rows);
const at = (hour: number) =>
  new Date(Math.floor(Date.now() / 3_600_000) * 3_600_000 + hour * 3_600_000).toISOString();
/** a slot of two hours that no other test uses */
const slot = () => {
  hours += 3;
  return { startsAt: at(hours), endsAt: at(hours + 2) };
};
let lot = 500;
const newHouse = (own: object = {}) =>
  t.app.database.as(system, (db) =>
    addHouse(db, t.company.ruleSet.id, t.company.builder, { lot: String(++lot), ...own }),
  );
const body = (houseId: string, own: object = {}) => ({
  houseId,
  raterId: t.company.users.rater.id,
  kind: 'final',
  ...slot(),
  ...own,
});
const book = async (houseId: string, own: object = {}): Promise<Visit> => {
  const answer = await office.post('/visits', body(houseId, own));
  expect(answer.statusCode, answer.body).toBe(201);
  return answer.json();
};
const stageOf = async (id: string) => (await office.get(`/houses/${id}`)).json().stage;

describe('booking', () => {
  test('sets the stage, tells rater and builder, writes what was done', async () => {
    const house = await newHouse();
    const visit = await book(house.id, { note: 'Key under the mat' });
    expect(visit).toMatchObject({
      state: 'booked',
      rater: { name: 'First Rater' },
      house: { id: house.id, stage: 'booked', builder: { name: 'Quillbrook Homes' } },
      scope: null,
      note: 'Key under the mat',
    });
    const [row] = await owner<{ starts: string; ends: string }>(
      'SELECT starts_at::text AS starts, ends_at::text AS ends FROM visits WHERE id = $1',
      [visit.id],
    );
    expect(new Date(row!.starts).toISOString()).toBe(visit.startsAt);
    expect(new Date(row!.ends).toISOString()).toBe(visit.endsAt);
    const mail = await owner<{ recipient: string; body: string }>(
      'SELECT recipient, body FROM outgoing_mail WHERE subject LIKE $1 ORDER BY recipient',
      [`${house.address}%`],
    );
    expect(mail.map(({ recipient }) => recipient)).toEqual(['rater@weir.example', 'site@quillbrook.example']);
    expect(mail[0]!.body).toContain('(US/Central)');
    const { items } = (await office.get(`/houses/${house.id}/events`)).json();
    // Nobody had asked for it, so the booking makes the request that it answers.
    expect(items.map(({ action }: { action: string }) => action)).toEqual([
      'stage changed',
      'visit booked',
      'visit asked',
    ]);
    expect(await owner('SELECT 1 FROM item_results WHERE house_id = $1 LIMIT 1', [house.id])).toHaveLength(1);
  });

  test('a rater is in one place at a time; the refusal says where', async () => {
    const [one, other] = [await newHouse(), await newHouse()];
    const visit = await book(one.id);
    const later = new Date(Date.parse(visit.startsAt) + 3_600_000).toISOString();
    const answer = await office.post('/visits', {
      ...body(other.id),
      startsAt: later,
      endsAt: new Date(Date.parse(later) + 3_600_000).toISOString(),
    });
    expect(answer.json()).toMatchObject({
      code: 'rater-double-booked',
      status: 409,
      detail: expect.stringContaining(`First Rater is at ${one.address} then: `),
    });
    expect(await stageOf(other.id)).toBe('awaiting_figures');
    const next = {
      startsAt: visit.endsAt,
      endsAt: new Date(Date.parse(visit.endsAt) + 1_800_000).toISOString(),
    };
    expect(await book(other.id, next)).toMatchObject({ state: 'booked' });
  });

  test('of two bookings at once exactly one wins', async () => {
    const [one, other] = [await newHouse(), await newHouse()];
    const times = slot();
    const third = await newHouse();
    const all = await Promise.all(
      [one, other, third].map(({ id }) => office.post('/visits', body(id, times))),
    );
    expect(all.map((each) => each.statusCode).sort()).toEqual([201, 409, 409]);
    for (const refused of all.filter((each) => each.statusCode === 409))
      expect(refused.json()).toMatchObject({
        code: 'rater-double-booked',
        detail: expect.stringContaining('First Rater is at '),
      });
  });

  test('two raters do not measure one house at once, also when booked at once', async () => {
    const house = await newHouse();
    const times = slot();
    const both = await Promise.all(
      [t.company.users.rater, t.company.users.otherRater].map(({ id }) =>
        office.post('/visits', body(house.id, { ...times, raterId: id })),
      ),
    );
    expect(both.map((each) => each.statusCode).sort()).toEqual([201, 409]);
    expect(both.find((each) => each.statusCode === 409)!.json()).toMatchObject({
      code: 'conflict',
      detail: expect.stringContaining('visits this house at that time'),
    });
  });

  test.each([
    ['an end before the start', () => ({ startsAt: at(900), endsAt: at(899) }), 'endsAt'],
    ['more than 14 hours', () => ({ startsAt: at(900), endsAt: at(915) }), 'endsAt'],
    ['the past', () => ({ startsAt: at(-30), endsAt: at(-28) }), 'startsAt'],
    ['somebody who is no rater', () => ({ raterId: t.company.users.quality.id }), 'raterId'],
    ['nobody', () => ({ raterId: '0199aaaa-0000-7000-8000-000000000000' }), 'raterId'],
    ['a reinspection of what has not failed', () => ({ kind: 'reinspection' }), 'kind'],
  ])('refuses %s in words', async (_, own, path) => {
    const answer = await office.post('/visits', body(t.company.house.id, own()));
    expect(answer.json()).toMatchObject({
      code: 'invalid-input',
      fields: [{ path, message: expect.any(String) }],
    });
  });

  test('refuses a sealed house, a house that is not there, and whoever does not book', async () => {
    const sealed = await newHouse({ stage: 'released' });
    expect((await office.post('/visits', body(sealed.id))).json()).toMatchObject({ code: 'file-sealed' });
    const nowhere = '0199aaaa-0000-7000-8000-000000000000';
    expect((await office.post('/visits', body(nowhere))).json()).toMatchObject({ code: 'not-found' });
    for (const who of ['rater', 'quality', 'builder'] as const)
      expect((await (await t.as(who)).post('/visits', body(sealed.id))).json()).toMatchObject({
        code: 'not-allowed',
      });
  });

  test('a deactivated rater is not booked', async () => {
    await owner('UPDATE users SET active = false WHERE id = $1', [t.company.users.otherRater.id]);
    const answer = await office.post(
      '/visits',
      body(t.company.house.id, { raterId: t.company.users.otherRater.id }),
    );
    expect(answer.json()).toMatchObject({ code: 'invalid-input', fields: [{ path: 'raterId' }] });
    expect((await office.get('/raters')).json()).toHaveLength(1);
    await owner('UPDATE users SET active = true WHERE id = $1', [t.company.users.otherRater.id]);
    expect((await office.get('/raters')).json().map(({ name }: { name: string }) => name)).toEqual([
      'First Rater',
      'Second Rater',
    ]);
  });
});

describe('moving and cancelling', () => {
  test('moves, and tells both raters when it changes hands', async () => {
    const house = await newHouse();
    const visit = await book(house.id);
    const times = slot();
    const answer = await office.patch(`/visits/${visit.id}`, {
      ...times,
      raterId: t.company.users.otherRater.id,
    });
    expect(answer.json()).toMatchObject({ ...times, rater: { name: 'Second Rater' }, note: null });
    const mail = await owner<{ recipient: string }>(
      'SELECT recipient FROM outgoing_mail WHERE subject LIKE $1 ORDER BY 1',
      [`${house.address}: final visit moved`],
    );
    expect(mail.map(({ recipient }) => recipient)).toEqual([
      'otherrater@weir.example',
      'rater@weir.example',
      'site@quillbrook.example',
    ]);
  });

  test('a note alone moves nothing and mails nobody', async () => {
    const house = await newHouse();
    const visit = await book(house.id);
    const answer = await office.patch(`/visits/${visit.id}`, { note: 'Ladder needed' });
    expect(answer.json()).toMatchObject({ startsAt: visit.startsAt, note: 'Ladder needed' });
    expect(
      await owner('SELECT 1 FROM outgoing_mail WHERE subject LIKE $1', [`${house.address}%`]),
    ).toHaveLength(2);
  });

  test('refuses the time of another visit, the past and half a change that makes no sense', async () => {
    const one = await book((await newHouse()).id);
    const other = await book((await newHouse()).id);
    const { startsAt, endsAt } = one;
    expect((await office.patch(`/visits/${other.id}`, { startsAt, endsAt })).json()).toMatchObject({
      code: 'rater-double-booked',
      detail: expect.stringContaining(one.house.address),
    });
    expect(
      (await office.patch(`/visits/${other.id}`, { startsAt: at(-5), endsAt: at(-3) })).json(),
    ).toMatchObject({
      code: 'invalid-input',
      fields: [{ path: 'startsAt' }],
    });
    expect((await office.patch(`/visits/${other.id}`, { endsAt: at(1) })).json()).toMatchObject({
      code: 'invalid-input',
      fields: [{ path: 'endsAt' }],
    });
  });

  test('cancelling frees the rater and puts the house back', async () => {
    const house = await newHouse({ stage: 'ready_to_book' });
    await t.app.database.as(system, (db) =>
      db.installerSubmission.create({
        data: {
          houseId: house.id,
          installerId: t.company.installer.id,
          revision: 1,
          figures: {},
          signedName: 'F',
        },
      }),
    );
    const visit = await book(house.id);
    const answer = await office.post(`/visits/${visit.id}/cancellation`, { cause: 'Rain in the attic' });
    expect(answer.json()).toMatchObject({
      state: 'cancelled',
      cause: 'Rain in the attic',
      house: { stage: 'ready_to_book' },
    });
    expect(await stageOf(house.id)).toBe('ready_to_book');
    const { startsAt, endsAt } = visit;
    expect(await book(house.id, { startsAt, endsAt })).toMatchObject({ state: 'booked' });
    expect((await office.post(`/visits/${visit.id}/cancellation`, { cause: 'again' })).json()).toMatchObject({
      code: 'visit-closed',
      detail: 'The visit was cancelled.',
    });
    expect((await office.patch(`/visits/${visit.id}`, { note: 'x' })).json()).toMatchObject({
      code: 'visit-closed',
    });
  });

  test('a house with another visit stays booked; an unsigned one waits for figures again', async () => {
    const house = await newHouse();
    const [one, other] = [await book(house.id, { kind: 'rough' }), await book(house.id)];
    const cancel = (id: string) => office.post(`/visits/${id}/cancellation`, { cause: 'Not needed' });
    expect((await cancel(one.id)).json().house.stage).toBe('booked');
    expect((await cancel(other.id)).json().house.stage).toBe('awaiting_figures');
  });

  test('a quality visit leaves the house where it stands', async () => {
    const house = await newHouse({ stage: 'in_review' });
    const visit = await book(house.id, { kind: 'quality' });
    expect(visit.house.stage).toBe('in_review');
    const cancelled = await office.post(`/visits/${visit.id}/cancellation`, { cause: 'Enough seen' });
    expect(cancelled.json().house.stage).toBe('in_review');
  });

  test('a visit that began is neither moved nor cancelled', async () => {
    const visit = await book((await newHouse()).id);
    await owner(`UPDATE visits SET state = 'in_progress' WHERE id = $1`, [visit.id]);
    expect((await office.patch(`/visits/${visit.id}`, { note: 'x' })).json()).toMatchObject({
      code: 'visit-closed',
    });
    expect((await office.post(`/visits/${visit.id}/cancellation`, { cause: 'x' })).json()).toMatchObject({
      code: 'visit-closed',
      detail: 'The visit has begun.',
    });
  });
});

describe('reading', () => {
  test('a rater gets his own only, a builder those of its houses with the rater’s name', async () => {
    const own = await book((await newHouse()).id);
    const others = await book((await newHouse()).id, { raterId: t.company.users.otherRater.id });
    const foreign = await book(t.company.otherHouse.id);
    const ids = async (who: 'rater' | 'builder' | 'office', query = '') =>
      (await (await t.as(who)).get(`/visits?pageSize=100${query}`)).json().items.map(({ id }: Visit) => id);
    expect(await ids('rater')).toEqual(expect.arrayContaining([own.id, foreign.id]));
    expect(await ids('rater', `&raterId=${t.company.users.otherRater.id}`)).not.toContain(others.id);
    expect(await ids('builder')).toEqual(expect.arrayContaining([own.id, others.id]));
    expect(await ids('builder')).not.toContain(foreign.id);
    const seen = (await (await t.as('builder')).get(`/visits?houseId=${others.house.id}`)).json();
    expect(seen.items[0]).toMatchObject({ rater: { name: 'Second Rater' } });
    expect((await (await t.as('rater')).get(`/visits/${others.id}`)).json()).toMatchObject({
      code: 'not-found',
    });
    expect((await (await t.as('rater')).get(`/visits/${own.id}`)).json()).toMatchObject({ id: own.id });
    expect((await (await t.as('builder')).get(`/visits/${own.id}`)).json()).toMatchObject({
      code: 'not-allowed',
    });
  });

  test('days are those of the company, also when the clocks change', async () => {
    const house = await newHouse();
    // In US Central the clocks go forward on 14 March 2027: that day has 23 hours, from 06:00 to 05:00 UTC.
    const late = await book(house.id, { startsAt: '2027-03-15T04:30:00Z', endsAt: '2027-03-15T04:45:00Z' });
    const next = await book(house.id, { startsAt: '2027-03-15T05:00:00Z', endsAt: '2027-03-15T05:30:00Z' });
    const early = await book(house.id, { startsAt: '2027-03-14T05:30:00Z', endsAt: '2027-03-14T06:00:00Z' });
    const first = await book(house.id, { startsAt: '2027-03-14T06:00:00Z', endsAt: '2027-03-14T06:30:00Z' });
    const day = async (from: string, to: string) =>
      (await office.get(`/visits?houseId=${house.id}&from=${from}&to=${to}`))
        .json()
        .items.map(({ id }: Visit) => id);
    expect(await day('2027-03-14', '2027-03-14')).toEqual([first.id, late.id]);
    expect(await day('2027-03-13', '2027-03-13')).toEqual([early.id]);
    expect(await day('2027-03-15', '2027-03-15')).toEqual([next.id]);
  });

  test('pages and filters by state', async () => {
    const one = (await office.get('/visits?pageSize=2&page=1')).json();
    const two = (await office.get('/visits?pageSize=2&page=2')).json();
    expect(one.items).toHaveLength(2);
    expect(two.total).toBe(one.total);
    expect(new Set([...one.items, ...two.items].map(({ id }: Visit) => id)).size).toBe(4);
    const cancelled = (await office.get('/visits?state=cancelled&pageSize=100')).json();
    expect(new Set(cancelled.items.map(({ state }: Visit) => state))).toEqual(new Set(['cancelled']));
  });
});

describe('reinspection', () => {
  /** A house whose bath fan was measured far too weak. */
  async function failedHouse() {
    const house = await newHouse({ stage: 'reinspection_asked' });
    const bath = house.rooms.find(({ kind }) => kind === 'bath')!;
    const request = await t.app.database.as(system, async (db) => {
      const visit = await db.visit.create({
        data: {
          houseId: house.id,
          raterId: t.company.users.rater.id,
          kind: 'final',
          state: 'submitted',
          startsAt: new Date(Date.parse(at(-1000 - lot * 3))),
          endsAt: new Date(Date.parse(at(-998 - lot * 3))),
        },
      });
      await db.reading.create({
        data: {
          id: crypto.randomUUID(),
          houseId: house.id,
          visitId: visit.id,
          test: 'bath-exhaust',
          subjectId: bath.id,
          raw: bathReading,
          entered: {},
          instrumentId: t.company.instruments.exhaustFlowMeter.id,
          takenById: t.company.users.rater.id,
          takenAt: new Date('2026-10-01T15:30:00Z'),
        },
      });
      return db.reinspectionRequest.create({
        data: { houseId: house.id, askedById: t.company.users.builder.id, askedByName: 'Site Office' },
      });
    });
    return { house, bath, request };
  }

  test('comes up with what failed, answers the request, and asks again when cancelled', async () => {
    const { house, bath, request } = await failedHouse();
    const visit = await book(house.id, { kind: 'reinspection', reinspectionRequestId: request.id });
    expect(visit.scope).toContainEqual({ item: 'bath-exhaust', subjectId: bath.id });
    const state = async () =>
      (
        await owner<{ state: string; visit_id: string }>(
          'SELECT state, visit_id FROM reinspection_requests WHERE id = $1',
          [request.id],
        )
      )[0];
    expect(await state()).toEqual({ state: 'booked', visit_id: visit.id });
    const again = await office.post(
      '/visits',
      body(house.id, { kind: 'reinspection', reinspectionRequestId: request.id }),
    );
    expect(again.json()).toMatchObject({ code: 'conflict' });
    const cancelled = await office.post(`/visits/${visit.id}/cancellation`, {
      cause: 'Builder is not ready',
    });
    expect(cancelled.json().house.stage).toBe('reinspection_asked');
    expect(await state()).toEqual({ state: 'asked', visit_id: null });
  });

  test('finds the request that waits by itself', async () => {
    const { house, request } = await failedHouse();
    const visit = await book(house.id, { kind: 'reinspection' });
    expect(await owner('SELECT visit_id FROM reinspection_requests WHERE id = $1', [request.id])).toEqual([
      { visit_id: visit.id },
    ]);
  });
});

const bathReading = {
  values: {},
  choices: { mode: 'intermittent' },
  rows: [{ label: 'Inlet 1', values: { flow: 5 }, choices: { deviceRange: 'widest' } }],
  confirmations: { fanOn: true, grilleClean: true, doorClosed: true },
};
