import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { password as fixturePassword } from '../../../../../tests/support/fixture.ts';

let service: TestApp;
let administrator: Client;

beforeAll(async () => {
  service = await startApp();
  administrator = await service.as('administrator');
});
afterAll(() => service.close());

const newest = async (recipient: string) => {
  const { items } = (await administrator.get(`/mail?search=${encodeURIComponent(recipient)}`)).json();
  return items[0] as { subject: string; body: string };
};
const tokenIn = (body: string) => /\/access\/([\w-]+)/.exec(body)?.[1];
const good = 'nine otters under the quay';

describe('inviting', () => {
  const email = 'new.rater@weir.example';

  it('mails a link that works once and opens the account', async () => {
    const invited = await administrator.post('/users', { name: 'New Rater', email, role: 'rater' });
    expect(invited.statusCode).toBe(201);
    expect(invited.json()).toMatchObject({ invited: true, active: true, builder: null });
    const { body } = await newest(email);
    expect(body).toContain('http://countercheck.example/access/');
    const link = `/access-links/${tokenIn(body)}`;
    expect((await service.stranger.get(link)).json()).toMatchObject({ purpose: 'invitation', email });

    const weak = await service.stranger.post(link, { password: 'New-Rater-2026!' });
    expect(weak.json()).toMatchObject({ code: 'weak-password', fields: [{ path: 'password' }] });
    const uses = [good, `${good}!`].map((password) => service.stranger.post(link, { password }));
    const statuses = (await Promise.all(uses)).map(({ statusCode }) => statusCode);
    expect(statuses.sort()).toEqual([200, 410]);
    expect((await service.stranger.get(link)).json().code).toBe('link-used');
  });

  it('does not make the same user twice', async () => {
    const again = await administrator.post('/users', { name: 'Else', email, role: 'office' });
    expect(again.json().code).toBe('already-exists');
  });

  it('asks for the builder of a builder user, and one that exists', async () => {
    const body = { name: 'Site', email: 'site2@weir.example', role: 'builder' };
    expect((await administrator.post('/users', body)).statusCode).toBe(400);
    const strange = { ...body, builderId: service.company.house.id };
    expect((await administrator.post('/users', strange)).json().fields).toEqual([
      { path: 'builderId', message: 'There is no such builder' },
    ]);
    const right = { ...body, builderId: service.company.builder.id };
    expect((await administrator.post('/users', right)).json().builder.name).toBe('Quillbrook Homes');
  });
});

describe('a forgotten password', () => {
  it('gives the same answer for those who have no account, in comparable time', async () => {
    const ask = async (email: string) => {
      const from = performance.now();
      const { statusCode, body } = await service.stranger.post('/password-resets', { email });
      return { statusCode, body, ms: performance.now() - from };
    };
    const known = await ask('office@weir.example');
    const unknown = await ask('nobody@weir.example');
    expect([unknown.statusCode, unknown.body]).toEqual([known.statusCode, known.body]);
    expect(Math.abs(known.ms - unknown.ms)).toBeLessThan(150);
    expect((await administrator.get('/mail?search=nobody@')).json().total).toBe(0);
  });

  it('is replaced through the newest link only, and every session ends', async () => {
    const office = await service.as('office');
    const first = tokenIn((await newest('office@weir.example')).body);
    await service.stranger.post('/password-resets', { email: 'office@weir.example' });
    const second = tokenIn((await newest('office@weir.example')).body);
    const use = (token?: string) => service.stranger.post(`/access-links/${token}`, { password: good });
    expect((await use(first)).json().code).toBe('link-unknown');
    expect((await office.get('/session')).statusCode).toBe(200);
    expect((await use(second)).statusCode).toBe(200);
    expect((await office.get('/session')).statusCode).toBe(401);
  });

  it('cannot be replaced after an hour', async () => {
    await service.stranger.post('/password-resets', { email: 'quality@weir.example' });
    const token = tokenIn((await newest('quality@weir.example')).body);
    await service.app.database.as(
      { kind: 'system', name: 'test' },
      (db) => db.$executeRaw`UPDATE access_tokens SET expires_at = expires_at - interval '61 minutes'`,
    );
    expect((await service.stranger.get(`/access-links/${token}`)).json().code).toBe('link-expired');
  });
});

describe('changing users', () => {
  it('ends the sessions of who is deactivated', async () => {
    const rater = await service.as('otherRater');
    const { id } = service.company.users.otherRater;
    expect((await rater.get('/session')).statusCode).toBe(200);
    expect((await administrator.patch(`/users/${id}`, { active: false })).json().openSessions).toBe(0);
    expect((await rater.get('/session')).statusCode).toBe(401);
  });

  it('keeps one administrator who can sign in, also of two who demote each other at once', async () => {
    const { id } = service.company.users.administrator;
    for (const change of [{ active: false }, { role: 'office' }])
      expect((await administrator.patch(`/users/${id}`, change)).json().code).toBe('conflict');
    const other = service.company.users.quality.id;
    await administrator.patch(`/users/${other}`, { role: 'administrator' });
    const both = await Promise.all(
      [id, other].map((each) => administrator.patch(`/users/${each}`, { role: 'quality' })),
    );
    // Whoever came second was refused, as the last one or as no administrator any more.
    expect(both.map(({ statusCode }) => statusCode).sort()[0]).toBe(200);
    const left = await service.app.database.as({ kind: 'system', name: 'test' }, (db) =>
      db.user.count({ where: { role: 'administrator', active: true } }),
    );
    expect(left).toBe(1);
  });
});

describe('the own account', () => {
  it('changes its password after giving the present one, and other browsers are out', async () => {
    const builder = await service.as('builder');
    const email = service.company.users.builder.email;
    const elsewhere = await service.stranger.post('/session', { email, password: fixturePassword });
    const cookie = elsewhere.cookies.map(({ name, value }) => `${name}=${value}`).join('; ');
    const change = (body: object) => builder.post('/me/password', body);
    expect((await change({ current: 'wrong', next: good })).json().code).toBe('wrong-credentials');
    const weak = await change({ current: fixturePassword, next: 'aaaaaaaaaaaa' });
    expect(weak.json().fields[0].path).toBe('next');
    expect((await change({ current: fixturePassword, next: good })).statusCode).toBe(200);
    expect((await builder.get('/session')).statusCode).toBe(200);
    const outside = await service.stranger.send({ method: 'GET', url: '/api/session', headers: { cookie } });
    expect(outside.statusCode).toBe(401);
  });
});
