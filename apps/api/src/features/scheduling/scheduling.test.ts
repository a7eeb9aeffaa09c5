import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BoardVisit, VisitRequest, VisitWarning } from '@countercheck/contracts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { system } from '../../kernel/actor.ts';
import { openVisitRequest } from '../visits/index.ts';
import { hashToken } from '../../kernel/secrets/tokens.ts';

let service: TestApp;
let office: Client;
let builder: Client;
beforeAll(async () => {
  service = await startApp();
  office = await service.as('office');
  builder = await service.as('builder');
});
afterAll(() => service.close());

/** A Monday some weeks ahead, and its days; the company's clocks are six hours behind UTC in winter. */
const monday = (() => {
  const day = new Date(Date.now() + 30 * 86_400_000);
  day.setUTCDate(day.getUTCDate() + ((8 - day.getUTCDay()) % 7));
  return day;
})();
const day = (later = 0) => new Date(monday.getTime() + later * 86_400_000).toISOString().slice(0, 10);
const at = (later: number, clock: string) => {
  const hours = new Intl.DateTimeFormat('en', { timeZone: 'US/Central', timeZoneName: 'longOffset' })
    .formatToParts(new Date(`${day(later)}T18:00:00Z`))
    .find(({ type }) => type === 'timeZoneName')!
    .value.slice(3);
  return new Date(`${day(later)}T${clock}:00${hours}`).toISOString();
};
let lot = 100;
const house = (more: object = {}) =>
  service.app.database.as(system, (db) => {
    const { ruleSet, builder: own } = service.company;
    return addHouse(db, ruleSet.id, own, { lot: String((lot += 1)), ...more });
  });
const ask = async (houseId: string, more: object = {}, by = office) => {
  const answer = await by.post('/visit-requests', { houseId, kind: 'final', ...more });
  expect(answer.statusCode, answer.body).toBe(201);
  return answer.json<VisitRequest>();
};
const book = async (houseId: string, later: number, from: string, to: string, more: object = {}) => {
  const times = { startsAt: at(later, from), endsAt: at(later, to) };
  const raterId = service.company.users.rater.id;
  const answer = await office.post('/visits', { houseId, raterId, kind: 'final', ...times, ...more });
  expect(answer.statusCode, answer.body).toBe(201);
  return answer.json<{ id: string }>();
};
const requestOf = async (id: string) => (await office.get(`/visit-requests/${id}`)).json<VisitRequest>();
const mailsTo = (recipient: string) =>
  service.app.database.as(system, (db) =>
    db.outgoingMail.findMany({ where: { recipient }, orderBy: { createdAt: 'asc' } }),
  );

describe('a request', () => {
  it('takes as long and needs as much as the items that apply', async () => {
    const { id } = await house();
    const asked = await ask(id, { earliestOn: day(), deadlineOn: day(4), deadlineWhy: 'before_closing' });
    expect(asked).toMatchObject({ state: 'open', source: 'office', deadlineWhy: 'before_closing' });
    expect(asked.minutes % 15).toBe(0);
    expect(asked.minutes).toBeGreaterThan(60);
    expect(asked.needs.instruments).toContainEqual(['duct-tester']);
    expect(asked.needs.qualifications).toContain('combustion-safety');
    const again = await office.post('/visit-requests', { houseId: id, kind: 'final' });
    expect(again.json()).toMatchObject({ code: 'conflict', detail: 'This visit is asked for already.' });
    const wrong = await office.patch(`/visit-requests/${asked.id}`, { deadlineOn: '2026-01-01' });
    expect(wrong.json().fields[0].path).toBe('deadlineOn');
    const changed = await office.patch(`/visit-requests/${asked.id}`, { access: 'key', accessNote: 'Box 4' });
    expect(changed.json()).toMatchObject({ access: 'key', deadlineOn: day(4), minutes: asked.minutes });
  });

  it('follows the house until somebody sets the minutes', async () => {
    const { id } = await house();
    const asked = await ask(id);
    const { updatedAt, systems, rooms, appliances } = (await office.get(`/houses/${id}`)).json();
    const change = async (body: object, expectedUpdatedAt: string) => {
      const answer = await office.patch(`/houses/${id}`, { expectedUpdatedAt, ...body });
      expect(answer.statusCode, answer.body).toBe(200);
      return answer.json<{ updatedAt: string }>().updatedAt;
    };
    const more = [1, 2, 3].map((number) => ({ label: `Bath ${number + 10}`, kind: 'bath' }));
    const larger = { parts: { systems, rooms: [...rooms, ...more], appliances } };
    const then = await change(larger, updatedAt);
    const grown = await requestOf(asked.id);
    expect(grown.minutes).toBeGreaterThan(asked.minutes);
    await office.patch(`/visit-requests/${asked.id}`, { minutes: 345 });
    await change({ parts: { systems, rooms, appliances } }, then);
    expect((await requestOf(asked.id)).minutes).toBe(345);
  });

  it('to look again knows how the rater got in before', async () => {
    const { id: houseId } = await house();
    const first = await ask(houseId, {
      access: 'key',
      accessNote: 'Lock box 7',
      openFrom: '08:00',
      openTo: '15:00',
    });
    const again = await service.app.database.as(system, (db) =>
      openVisitRequest(db, system, null, { houseId, kind: 'reinspection', source: 'reinspection' }),
    );
    expect(again).toMatchObject({
      access: 'key',
      accessNote: 'Lock box 7',
      openFrom: '08:00',
      openTo: '15:00',
    });
    expect(again.id).not.toBe(first.id);
  });

  it('is booked by a visit, open again without it, and done with it', async () => {
    const { id } = await house();
    const asked = await ask(id);
    const visit = await book(id, 0, '08:00', '11:00');
    expect(await requestOf(asked.id)).toMatchObject({ state: 'booked', visitId: visit.id });
    await office.post(`/visits/${visit.id}/cancellation`, { cause: 'Rain' });
    expect(await requestOf(asked.id)).toMatchObject({ state: 'open', visitId: null });
    const second = await book(id, 0, '08:00', '11:00', { visitRequestId: asked.id });
    const rater = await service.as('rater');
    await rater.post(`/visits/${second.id}/not-ready`, { cause: 'No meter yet', kind: 'no_power' });
    expect(await requestOf(asked.id)).toMatchObject({ state: 'open', visitId: null });
    const withdrawn = await office.post(`/visit-requests/${asked.id}/withdrawal`, { why: 'Sold as it is' });
    expect(withdrawn.json()).toMatchObject({ state: 'withdrawn', withdrawnWhy: 'Sold as it is' });
    const late = await office.post('/visits', {
      ...{ houseId: id, raterId: service.company.users.rater.id, kind: 'final', visitRequestId: asked.id },
      ...{ startsAt: at(1, '08:00'), endsAt: at(1, '09:00') },
    });
    expect(late.json().code).toBe('conflict');
    const counted = await builder.get(`/not-ready?from=${day()}&to=${day(1)}`);
    expect(counted.json().builders).toMatchObject([{ visits: 1, notReady: 1, causes: { no_power: 1 } }]);
    expect(counted.json().newest[0]).toMatchObject({ kind: 'no_power', cause: 'No meter yet' });
    const other = await (await service.as('otherBuilder')).get(`/not-ready?from=${day()}&to=${day(1)}`);
    expect(other.json()).toEqual({ builders: [], newest: [] });
  });

  it('of a visit that nobody asked for is made at booking, so that a cancelled one is not forgotten', async () => {
    const { id } = await house();
    const visit = await book(id, 2, '08:00', '11:00');
    await office.post(`/visits/${visit.id}/cancellation`, { cause: 'Rain' });
    const list = await office.get(`/visit-requests?houseId=${id}`);
    expect(list.json().items).toMatchObject([{ state: 'open', source: 'office' }]);
  });
});

describe('the readiness list', () => {
  it('is answered by the builder and by a link, which is kept as a hash, runs out and is withdrawn', async () => {
    const { id } = await house();
    const asked = await ask(id, {}, builder);
    expect(asked.source).toBe('house_ready');
    const answered = await builder.put(`/visit-requests/${asked.id}/readiness`, {
      points: [{ kind: 'power', ready: true }],
    });
    expect(answered.json().readiness.points[0]).toMatchObject({ ready: true, byName: 'Site Office' });
    const wrong = await builder.put(`/visit-requests/${asked.id}/readiness`, {
      points: [{ kind: 'corrections', ready: true }],
    });
    expect(wrong.json().code).toBe('invalid-input');

    const email = 'foreman@quillbrook.example';
    const sent = await office.post(`/visit-requests/${asked.id}/readiness-links`, { name: 'Foreman', email });
    const { link, url } = sent.json();
    const token = url.split('/').pop() as string;
    expect((await mailsTo(email))[0]?.body).toContain(url);
    const stored = await service.app.database.as(system, (db) =>
      db.readinessLink.findUniqueOrThrow({ where: { id: link.id } }),
    );
    expect(stored.tokenHash).toBe(hashToken(token));
    const form = await service.stranger.get(`/ready/${token}`);
    expect(form.json()).toMatchObject({
      name: 'Foreman',
      open: true,
      house: { builder: 'Quillbrook Homes' },
    });
    const points = [
      { kind: 'air_handler', ready: false, note: 'Board is missing' },
      { kind: 'registers', ready: true },
    ];
    expect((await service.stranger.put(`/ready/${token}`, { points })).json().ready).toBe(false);
    expect((await requestOf(asked.id)).readiness.points[1]).toMatchObject({
      ...{ ready: false, note: 'Board is missing', byName: 'Foreman' },
    });
    const events = await service.app.database.as(system, (db) =>
      db.event.findMany({ where: { recordId: asked.id, action: 'readiness answered' } }),
    );
    expect(events.map(({ actorKind }) => actorKind)).toEqual(['builder', 'contact']);

    // The rater who goes reads how to get in, and what is not ready, on the sheet that his phone keeps.
    const access = { access: 'key', accessNote: 'Lock box 4', openFrom: '08:00', openTo: '15:00' };
    await office.patch(`/visit-requests/${asked.id}`, access);
    const visit = await book(id, 10, '08:00', '11:00', { visitRequestId: asked.id });
    const rater = await service.as('rater');
    expect((await rater.get(`/visits/${visit.id}/sheet`)).json().site).toEqual({
      ...{ ...access, note: null },
      notReady: [{ kind: 'air_handler', note: 'Board is missing', byName: 'Foreman' }],
    });
    await office.post(`/visits/${visit.id}/cancellation`, { cause: 'Rain' });

    await office.delete(`/readiness-links/${link.id}`);
    expect((await service.stranger.get(`/ready/${token}`)).json().code).toBe('link-revoked');
    await service.app.database.as(system, (db) =>
      db.readinessLink.update({ where: { id: link.id }, data: { revokedAt: null, expiresAt: new Date() } }),
    );
    expect((await service.stranger.get(`/ready/${token}`)).json().code).toBe('link-expired');
  });
});

describe('the board', () => {
  it('warns of what is doubtful, before and after it is booked', async () => {
    const { users, instruments } = service.company;
    const profile = {
      ...{ qualifications: ['airtightness'], breakMinutes: 30, startsAtHome: true },
      workingHours: [{ weekday: 4, from: '08:00', to: '12:00' }],
      ...{ homeLatitude: 41, homeLongitude: -91, instrumentIds: [instruments.ductTester.id] },
    };
    const saved = await office.put(`/rater-profiles/${users.rater.id}`, profile);
    expect(saved.json()).toMatchObject({ instruments: [{ label: 'Duct tester 1' }], held: null });
    const near = await house({ latitude: 41, longitude: -91 });
    const far = await house({ latitude: 41.5, longitude: -91 });
    const request = await ask(far.id, {
      earliestOn: day(4),
      deadlineOn: day(4),
      deadlineWhy: 'before_closing',
    });
    await book(near.id, 3, '08:00', '11:00');
    const tried = await office.get(
      `/visit-warnings?houseId=${far.id}&raterId=${users.rater.id}&kind=final&requestId=${request.id}&startsAt=${at(3, '11:15')}&endsAt=${at(3, '12:15')}`,
    );
    const codes = (warnings: VisitWarning[]) => warnings.map(({ code }) => code).sort();
    const expected = [
      ...['before-earliest', 'instrument-missing', 'instrument-missing', 'instrument-missing'],
      ...['instrument-missing', 'outside-hours', 'qualification-missing', 'too-short', 'travel-too-tight'],
    ];
    expect(new Set(codes(tried.json()))).toEqual(new Set(expected));
    const visit = await book(far.id, 3, '11:15', '12:15', { visitRequestId: request.id });
    const board = await office.get(`/board?from=${day()}`);
    const shown = (board.json().visits as BoardVisit[]).find((each) => each.visit.id === visit.id)!;
    expect(codes(shown.warnings)).toEqual(codes(tried.json()));
    expect(shown.warnings.find(({ code }) => code === 'travel-too-tight')?.text).toContain(
      'there are 15 min',
    );

    const { manometer } = instruments;
    const withMeter = await office.put(`/visits/${visit.id}/instruments`, { instrumentIds: [manometer.id] });
    expect(withMeter.json().instruments).toMatchObject([{ label: 'Manometer 1' }]);
    const elsewhere = await house();
    const other = await book(elsewhere.id, 3, '12:00', '13:00', { raterId: users.otherRater.id });
    const twice = await office.put(`/visits/${other.id}/instruments`, { instrumentIds: [manometer.id] });
    expect(codes(twice.json().warnings)).toContain('instrument-twice');
  });
});

describe('a visit that looks at work again', () => {
  it('is warned of with whoever did that work, also when nobody asked for it', async () => {
    const { rater, otherRater } = service.company.users;
    const { id: houseId } = await house();
    const times = { startsAt: new Date(at(3, '08:00')), endsAt: new Date(at(3, '09:00')) };
    const past = { startsAt: new Date('2026-01-05T15:00:00Z'), endsAt: new Date('2026-01-05T17:00:00Z') };
    await service.app.database.as(system, (db) =>
      db.visit.create({ data: { houseId, raterId: rater.id, kind: 'final', state: 'submitted', ...past } }),
    );
    const warnings = async (raterId: string) =>
      (
        await office.get(
          `/visit-warnings?houseId=${houseId}&raterId=${raterId}&kind=reinspection&startsAt=${times.startsAt.toISOString()}&endsAt=${times.endsAt.toISOString()}`,
        )
      ).json<VisitWarning[]>();
    expect(await warnings(rater.id)).toContainEqual({
      code: 'own-work',
      text: `${rater.name} would look at his own work; another rater should go.`,
    });
    expect((await warnings(otherRater.id)).map(({ code }) => code)).not.toContain('own-work');
  });
});

describe('mail', () => {
  it('goes to rater and contacts for booked, moved and cancelled, once each, but not where it is not wanted', async () => {
    const rater = await service.as('rater');
    const { email } = service.company.users.rater;
    const before = (await mailsTo(email)).length;
    await rater.put('/mail-preferences', { muted: ['visit-moved'] });
    expect((await rater.get('/mail-preferences')).json()).toEqual({ muted: ['visit-moved'] });
    const { id } = await house();
    const visit = await book(id, 4, '08:00', '10:00');
    await office.patch(`/visits/${visit.id}`, { startsAt: at(4, '09:00'), endsAt: at(4, '11:00') });
    await office.post(`/visits/${visit.id}/cancellation`, { cause: 'Rain' });
    const subjects = (await mailsTo(email)).slice(before).map(({ subject }) => subject.split(': ')[1]);
    expect(subjects).toEqual(['final visit booked', 'final visit cancelled']);
    const contact = (await mailsTo('site@quillbrook.example')).filter(({ uniqueKey }) =>
      uniqueKey?.includes(visit.id),
    );
    expect(contact.map(({ subject }) => subject.split(': ')[1])).toEqual([
      ...['final visit booked', 'final visit moved', 'final visit cancelled'],
    ]);
    await rater.put('/mail-preferences', { muted: [] });
  });
});

describe('the link in the mail of a contact without an account', () => {
  it('opens what that contact wants to hear of, until it is withdrawn', async () => {
    const { builder: own } = service.company;
    const email = 'siteoffice@quillbrook.example';
    const body = { name: 'Site Office', email };
    const contact = (await office.post(`/builders/${own.id}/contacts`, body)).json<{ id: string }>();
    const path = `/contacts/${contact.id}/mail-link`;
    const pathOf = (url: string) => new URL(url).pathname;
    const { url } = (await office.post(path)).json<{ url: string }>();
    const open = (address: string) => service.stranger.get(pathOf(address));
    expect((await open(url)).json()).toEqual({
      ...{ company: expect.any(String), name: 'Site Office', email, notify: true, muted: [] },
    });
    const choose = (choices: object) => service.stranger.put(pathOf(url), choices);
    expect((await choose({ notify: true, muted: ['visit-booked'] })).json()).toEqual({
      ...{ notify: true, muted: ['visit-booked'] },
    });
    const { id } = await house();
    const visit = await book(id, 14, '08:00', '10:00');
    await office.patch(`/visits/${visit.id}`, { startsAt: at(14, '09:00'), endsAt: at(14, '11:00') });
    const heard = await mailsTo(email);
    expect(heard.map(({ subject }) => subject.split(': ')[1])).toEqual(['final visit moved']);
    // The letter goes out with a link of its own; whoever has an account says it there.
    expect(heard[0]?.contactId).toBe(contact.id);
    const [account] = await mailsTo(service.company.users.rater.email);
    expect(account?.contactId).toBeNull();
    expect((await choose({ notify: false, muted: [] })).statusCode).toBe(200);
    await office.post(`/visits/${visit.id}/cancellation`, { cause: 'Rain' });
    expect(await mailsTo(email)).toHaveLength(1);
    expect((await choose({ notify: true, muted: ['everything'] })).json().code).toBe('invalid-input');

    const again = (await office.post(path)).json<{ url: string }>().url;
    expect((await open(url)).json().code).toBe('link-revoked');
    expect((await open(again)).json()).toMatchObject({ notify: false, muted: [] });
    await office.delete(path);
    expect((await open(again)).json().code).toBe('link-revoked');
    await office.delete(`/contacts/${contact.id}`);
    expect((await open(again)).json().code).toBe('link-unknown');
  });
});

describe("a rater's calendar", () => {
  it('tells each visit, its changes and its end to whoever holds the address, until it is withdrawn', async () => {
    const rater = await service.as('rater');
    const { users } = service.company;
    const { url } = (await rater.post('/calendar-link')).json();
    const path = new URL(url).pathname.replace('/api', '');
    const read = async () => {
      const answer = await service.stranger.get(path);
      expect(answer.headers['content-type']).toBe('text/calendar; charset=utf-8');
      const events = new ICAL.Component(ICAL.parse(answer.body))
        .getAllSubcomponents('vevent')
        .map((each) => new ICAL.Event(each));
      return { answer, events };
    };
    const { id } = await house();
    const visit = await book(id, 7, '08:00', '10:00');
    const own = async () => {
      const { events } = await read();
      const found = events.filter(({ uid }) => uid === `${visit.id}@countercheck`);
      expect(found).toHaveLength(1);
      const [event] = found;
      return {
        sequence: event!.sequence,
        status: event!.component.getFirstPropertyValue('status'),
        start: event!.startDate.toJSDate().toISOString(),
        utc: event!.startDate.zone === ICAL.Timezone.utcTimezone,
      };
    };
    const first = { sequence: 0, status: 'CONFIRMED', start: at(7, '08:00'), utc: true };
    expect(await own()).toEqual(first);
    const { answer } = await read();
    const same = await service.stranger.send({
      ...{ method: 'GET', url: `/api${path}`, headers: { 'if-none-match': String(answer.headers.etag) } },
    });
    expect(same.statusCode).toBe(304);

    await office.patch(`/visits/${visit.id}`, { startsAt: at(7, '09:00'), endsAt: at(7, '11:00') });
    expect(await own()).toEqual({ ...first, sequence: 1, start: at(7, '09:00') });
    // Another rater goes: it is off this calendar, not merely missing from it.
    await office.patch(`/visits/${visit.id}`, { raterId: users.otherRater.id });
    expect(await own()).toMatchObject({ sequence: 2, status: 'CANCELLED' });
    await office.patch(`/visits/${visit.id}`, { raterId: users.rater.id });
    expect(await own()).toMatchObject({ sequence: 3, status: 'CONFIRMED' });
    await office.post(`/visits/${visit.id}/cancellation`, { cause: 'Rain' });
    expect(await own()).toMatchObject({ sequence: 4, status: 'CANCELLED' });

    const again = (await rater.post('/calendar-link')).json().url as string;
    expect((await service.stranger.get(path)).json().code).toBe('link-revoked');
    const next = new URL(again).pathname.replace('/api', '');
    expect((await service.stranger.get(next)).statusCode).toBe(200);
    expect((await rater.get('/calendar-link')).json().open.lastReadAt).not.toBeNull();
    await rater.delete('/calendar-link');
    expect((await service.stranger.get(next)).json().code).toBe('link-revoked');
    expect((await rater.get('/calendar-link')).json()).toEqual({ open: null });
  });
});
