import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FiguresForm } from '@countercheck/contracts';
import { withClient } from '@countercheck/host/database';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import { system, type UserActor } from '../../kernel/actor.ts';
import { freezeFigures } from './index.ts';

let t: TestApp;
let office: Client;
beforeAll(async () => {
  t = await startApp();
  office = await t.as('office');
});
afterAll(() => t.close());

const owner = <T extends object>(sql: string, values: unknown[] = []) =>
  withClient(t.urls.ownerUrl, async (client) => (await client.query<T>(sql, values)).rows);
let lot = 700;
const newHouse = (own: object = {}) =>
  t.app.database.as(system, (db) =>
    addHouse(db, t.company.ruleSet.id, t.company.builder, { lot: String(++lot), ...own }),
  );
const sendLink = async (houseId: string, own: object = {}) => {
  const answer = await office.post(`/houses/${houseId}/installer-links`, {
    installerId: t.company.installer.id,
    ...own,
  });
  expect(answer.statusCode, answer.body).toBe(201);
  const { link, url } = answer.json();
  return { link, url, token: String(url).split('/').at(-1)! };
};
const form = async (token: string): Promise<FiguresForm> =>
  (await t.stranger.get(`/figures/${token}`)).json();
const figuresFor = ({ subjects }: FiguresForm) => {
  const system1 = subjects.find(({ kind }) => kind === 'system')!;
  return { [system1.id]: { supplyStatic: 0.085, returnStatic: 0.21, airflow: 990 } };
};
const sign = (token: string, figures: object, expectedRevision = 0, signedName = 'Fitter One') =>
  t.stranger.post(`/figures/${token}`, { figures, signedName, expectedRevision });
const blind = (on: boolean) => owner('UPDATE company SET blind_second_reading = $1', [on]);

describe('installers', () => {
  test('are registered, changed, found and paged', async () => {
    const made = await office.post('/installers', {
      name: 'Fitter Two',
      companyName: 'Fen Ducts',
      email: 'TWO@fen.example',
    });
    expect(made.json()).toMatchObject({
      trade: 'hvac-installer',
      email: 'two@fen.example',
      phone: null,
      active: true,
    });
    const changed = await office.patch(`/installers/${made.json().id}`, { active: false });
    expect(changed.json()).toMatchObject({ active: false, name: 'Fitter Two', trade: 'hvac-installer' });
    expect((await office.get('/installers?search=FEN')).json()).toMatchObject({ total: 1 });
    expect((await office.get('/installers?pageSize=1&page=2')).json()).toMatchObject({
      total: 2,
      items: [{ name: 'Fitter Two' }],
    });
    const nowhere = '/installers/0199aaaa-0000-7000-8000-000000000000';
    expect((await office.patch(nowhere, { active: true })).json()).toMatchObject({ code: 'not-found' });
    expect(
      (await (await t.as('rater')).post('/installers', { name: 'x', companyName: 'y' })).json(),
    ).toMatchObject({
      code: 'not-allowed',
    });
    expect((await (await t.as('builder')).get('/installers')).json()).toMatchObject({ code: 'not-allowed' });
    const house = await newHouse();
    const inactive = await office.post(`/houses/${house.id}/installer-links`, {
      installerId: made.json().id,
    });
    expect(inactive.json()).toMatchObject({ code: 'invalid-input', fields: [{ path: 'installerId' }] });
  });
});

describe('links', () => {
  test('are shown once, kept as a hash, mailed and expire', async () => {
    const house = await newHouse();
    const { link, url, token } = await sendLink(house.id);
    expect(url).toBe(`http://countercheck.example/figures/${token}`);
    expect(Buffer.from(token, 'base64url')).toHaveLength(32);
    const [row] = await owner<{ token_hash: string; expires: string }>(
      'SELECT token_hash, expires_at::text AS expires FROM installer_links WHERE id = $1',
      [link.id],
    );
    expect(row!.token_hash).toBe(createHash('sha256').update(token).digest('hex'));
    expect(new Date(row!.expires).toISOString()).toBe(link.expiresAt);
    expect(Math.round((Date.parse(link.expiresAt) - Date.now()) / 86_400_000)).toBe(30);
    expect(link).toMatchObject({ state: 'open', revokedAt: null, lastUsedAt: null });
    const [mail] = await owner<{ body: string; recipient: string }>(
      'SELECT * FROM outgoing_mail WHERE body LIKE $1',
      [`%${url}%`],
    );
    expect(mail!.recipient).toBe('fitter@reed.example');
    const events = JSON.stringify((await office.get(`/houses/${house.id}/events`)).json());
    expect(events).toContain('link sent');
    expect(events).not.toContain(token);
    const list = (await office.get(`/houses/${house.id}/installer-links`)).json();
    expect(list).toEqual([link]);
  });

  test('open nothing when unknown, withdrawn or expired', async () => {
    const house = await newHouse();
    expect((await t.stranger.get('/figures/of-nobody-at-all')).json()).toMatchObject({
      code: 'link-unknown',
      status: 404,
    });
    const { link, token } = await sendLink(house.id, { days: 1 });
    expect((await office.delete(`/installer-links/${link.id}`)).json()).toEqual({ ok: true });
    expect((await office.delete(`/installer-links/${link.id}`)).json()).toEqual({ ok: true });
    expect((await t.stranger.get(`/figures/${token}`)).json()).toMatchObject({
      code: 'link-revoked',
      status: 410,
    });
    expect((await sign(token, {})).json()).toMatchObject({ code: 'link-revoked' });
    const other = await sendLink(house.id);
    await owner(`UPDATE installer_links SET expires_at = now() - interval '1 minute' WHERE id = $1`, [
      other.link.id,
    ]);
    expect((await t.stranger.get(`/figures/${other.token}`)).json()).toMatchObject({ code: 'link-expired' });
    const states = (await office.get(`/houses/${house.id}/installer-links`)).json();
    expect(states.map(({ state }: { state: string }) => state)).toEqual(['expired', 'revoked']);
    const nowhere = '0199aaaa-0000-7000-8000-000000000000';
    expect((await office.delete(`/installer-links/${nowhere}`)).json()).toMatchObject({ code: 'not-found' });
    expect((await office.get(`/houses/${nowhere}/installer-links`)).json()).toMatchObject({
      code: 'not-found',
    });
  });

  test('are not sent for a sealed file, nor by whoever does not send them', async () => {
    const sealed = await newHouse({ stage: 'released' });
    const path = `/houses/${sealed.id}/installer-links`;
    const body = { installerId: t.company.installer.id };
    expect((await office.post(path, body)).json()).toMatchObject({ code: 'file-sealed' });
    expect((await (await t.as('rater')).post(path, body)).json()).toMatchObject({ code: 'not-allowed' });
    expect((await (await t.as('builder')).post(path, body)).json()).toMatchObject({ code: 'not-allowed' });
  });
});

describe('figures', () => {
  test('the form asks for what there is in the house and shows nothing else', async () => {
    const house = await newHouse();
    const { token } = await sendLink(house.id);
    const asked = await form(token);
    expect(asked).toMatchObject({
      installer: { name: 'Fitter One', companyName: 'Reed Air' },
      company: { name: 'Weir Rating' },
      house: { address: house.address, builder: 'Quillbrook Homes', community: 'Quillbrook Homes Field' },
      submissions: [],
      frozen: false,
    });
    expect(asked.subjects.map(({ kind }) => kind)).toEqual([
      'system',
      'bedroom',
      'bedroom',
      'bath',
      'kitchen',
      'ventilator',
    ]);
    const [unit] = asked.subjects;
    expect(unit!.figures.map(({ name }) => name)).toEqual([
      'supplyStatic',
      'returnStatic',
      'airflow',
      'ductLeakageAt25',
      'fanPower',
    ]);
    expect(unit!.figures.filter(({ required }) => required).map(({ name }) => name)).toEqual([
      'supplyStatic',
      'returnStatic',
    ]);
    expect(asked.subjects.at(-1)!.figures.map(({ name }) => name)).toEqual(['exhaustFlow']);
    expect(JSON.stringify(asked)).not.toContain('designed');
  });

  test('a system without ducts has no pressures to report', async () => {
    const house = await newHouse();
    await owner('UPDATE house_systems SET has_ducts = false WHERE house_id = $1', [house.id]);
    const { token } = await sendLink(house.id);
    expect((await form(token)).subjects[0]!.figures.map(({ name }) => name)).toEqual(['airflow', 'fanPower']);
  });

  test('are signed, move the house on, change its verdicts and are corrected by a new revision', async () => {
    const house = await newHouse();
    const { token } = await sendLink(house.id);
    const figures = figuresFor(await form(token));
    const signed = await sign(token, figures);
    expect(signed.statusCode, signed.body).toBe(201);
    expect(signed.json()).toMatchObject({ revision: 1, figures, signedName: 'Fitter One', frozenAt: null });
    const [row] = await owner<{ at: string }>(
      'SELECT signed_at::text AS at FROM installer_submissions WHERE id = $1',
      [signed.json().id],
    );
    expect(new Date(row!.at).toISOString()).toBe(signed.json().signedAt);
    expect((await office.get(`/houses/${house.id}`)).json()).toMatchObject({ stage: 'ready_to_book' });
    expect(await owner('SELECT 1 FROM item_results WHERE house_id = $1 LIMIT 1', [house.id])).toHaveLength(1);

    const [[systemId]] = [Object.keys(figures)];
    const better = { [systemId!]: { ...figures[systemId!], returnStatic: 0.25 } };
    expect((await sign(token, better, 1)).json()).toMatchObject({ revision: 2 });
    const shown = await form(token);
    expect(shown.submissions.map(({ revision }) => revision)).toEqual([2, 1]);
    expect(shown.submissions[1]!.figures).toEqual(figures);
    const { items } = (await office.get(`/houses/${house.id}/events`)).json();
    const events = items.filter(({ action }: { action: string }) => action === 'figures signed');
    expect(events).toMatchObject([
      {
        actorKind: 'installer',
        actorName: 'Fitter One',
        before: { revision: 1 },
        after: { revision: 2, figures: better },
      },
      { after: { revision: 1, figures } },
    ]);
    const [link] = (await office.get(`/houses/${house.id}/installer-links`)).json();
    expect(link.lastUsedAt).not.toBeNull();
  });

  test('of two signatures on one revision the second is told', async () => {
    const { token } = await sendLink((await newHouse()).id);
    const figures = figuresFor(await form(token));
    const both = await Promise.all([1, 2].map(() => sign(token, figures)));
    expect(both.map((each) => each.statusCode).sort()).toEqual([201, 409]);
    expect(both.find((each) => each.statusCode === 409)!.json()).toMatchObject({ code: 'conflict' });
    expect((await sign(token, figures, 7)).json()).toMatchObject({ code: 'conflict' });
  });

  test('name every field that cannot be meant', async () => {
    const { token } = await sendLink((await newHouse()).id);
    const [unit] = (await form(token)).subjects;
    const answer = await sign(token, {
      [unit!.id]: { supplyStatic: 85, airflow: -1, colour: 3 },
      [t.company.otherHouse.rooms[0]!.id]: { exhaustFlow: 50 },
    });
    const paths = answer.json().fields.map(({ path }: { path: string }) => path);
    expect(answer.json().code).toBe('invalid-input');
    expect(new Set(paths)).toEqual(
      new Set([
        `figures.${unit!.id}.supplyStatic`,
        `figures.${unit!.id}.returnStatic`,
        `figures.${unit!.id}.airflow`,
        `figures.${unit!.id}.colour`,
        `figures.${t.company.otherHouse.rooms[0]!.id}.exhaustFlow`,
      ]),
    );
    expect((await sign(token, figuresFor(await form(token)), 0, '  ')).json()).toMatchObject({
      code: 'invalid-input',
      fields: [{ path: 'signedName' }],
    });
    expect((await form(token)).submissions).toEqual([]);
  });

  test('of a released house take no change, even where no reading was held against them', async () => {
    const house = await newHouse();
    const { token } = await sendLink(house.id);
    const figures = figuresFor(await form(token));
    expect((await sign(token, figures)).statusCode).toBe(201);
    await owner(`UPDATE houses SET stage = 'released' WHERE id = $1`, [house.id]);
    expect((await sign(token, figures, 1)).json()).toMatchObject({ code: 'figures-frozen' });
  });

  test('are frozen once, and then stay as they were signed', async () => {
    const house = await newHouse();
    const { token } = await sendLink(house.id);
    const figures = figuresFor(await form(token));
    await sign(token, figures);
    const { id, name, role } = t.company.users.rater;
    const rater: UserActor = { kind: 'user', id, name, role, builderId: null };
    const freeze = () => t.app.database.as(rater, (db) => freezeFigures(db, rater, null, house.id));
    await freeze();
    const [first] = (await form(token)).submissions;
    expect(first!.frozenAt).not.toBeNull();
    await freeze();
    const shown = await form(token);
    expect(shown).toMatchObject({ frozen: true, submissions: [{ frozenAt: first!.frozenAt }] });
    expect((await sign(token, figures, 1)).json()).toMatchObject({ code: 'figures-frozen' });
    const { items } = (await office.get(`/houses/${house.id}/events`)).json();
    expect(items.filter(({ action }: { action: string }) => action === 'figures frozen')).toHaveLength(1);
  });

  test('another installer of the house is named, and nothing of other houses is seen', async () => {
    const house = await newHouse();
    const first = await sendLink(house.id);
    await sign(first.token, figuresFor(await form(first.token)));
    const other = await office.post('/installers', { name: 'Fitter Three', companyName: 'Moor Vents' });
    const second = await sendLink(house.id, { installerId: other.json().id });
    const shown = await form(second.token);
    expect(shown.installer.name).toBe('Fitter Three');
    expect(shown.submissions).toMatchObject([{ installer: { name: 'Fitter One' } }]);
    const mails = await owner('SELECT 1 FROM outgoing_mail WHERE body LIKE $1', [`%${second.url}%`]);
    expect(mails).toHaveLength(0);
  });

  test('a blind second reading keeps them, and what tells them, from the rater', async () => {
    const house = await newHouse();
    const { token } = await sendLink(house.id);
    const figures = figuresFor(await form(token));
    await sign(token, figures);
    const rater = await t.as('rater');
    const seen = async () => (await rater.get(`/houses/${house.id}/submissions`)).json();
    expect(await seen()).toMatchObject({ hidden: false, items: [{ figures }] });
    await blind(true);
    try {
      expect(await seen()).toEqual({ hidden: true, items: [], openings: [], mayOpenAgain: false });
      const events = (await rater.get(`/houses/${house.id}/events`)).json();
      expect(events.total).toBeGreaterThan(1);
      expect(JSON.stringify(events)).not.toContain('0.085');
      expect((await office.get(`/houses/${house.id}/submissions`)).json()).toMatchObject({ hidden: false });
      await owner(`UPDATE houses SET stage = 'in_review' WHERE id = $1`, [house.id]);
      expect(await seen()).toMatchObject({ hidden: false, items: [{ figures }] });
    } finally {
      await blind(false);
    }
    expect((await (await t.as('builder')).get(`/houses/${house.id}/submissions`)).json()).toMatchObject({
      code: 'not-allowed',
    });
  });
});
