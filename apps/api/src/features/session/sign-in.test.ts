import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { FastifyInstance } from 'fastify';
import { TOTP, Secret } from 'otpauth';
import { buildApp } from '../../app.ts';
import { readConfig } from '../../kernel/config.ts';
import { system } from '../../kernel/actor.ts';
import { freshDatabase, type FreshDatabase } from '../../../../../tests/support/database.ts';
import { hashPassword } from './passwords.ts';

const password = 'otters drink at nine';
let database: FreshDatabase;
let app: FastifyInstance;

beforeAll(async () => {
  database = await freshDatabase();
  app = await buildApp(
    readConfig({ DATABASE_URL: database.appUrl, SECRET_KEY: 'k'.repeat(40), LOG_LEVEL: 'silent' }),
  );
  await app.ready();
});
afterAll(async () => {
  await app.close();
  await database.drop();
});

async function addUser(email: string, more: object = {}) {
  const passwordHash = await hashPassword(password);
  return app.database.as(system, (db) =>
    db.user.create({ data: { email, name: 'Some Body', role: 'office', passwordHash, ...more } }),
  );
}

interface Options {
  cookie?: string;
  body?: object;
  from?: string;
}
async function call(method: 'GET' | 'POST' | 'DELETE' | 'PATCH', path: string, options: Options = {}) {
  const answer = await app.inject({
    method,
    url: `/api${path}`,
    remoteAddress: options.from ?? '192.0.2.1',
    headers: { 'x-requested-with': 'countercheck', ...(options.cookie ? { cookie: options.cookie } : {}) },
    ...(options.body ? { payload: options.body } : {}),
  });
  const set = answer.cookies.find((cookie) => cookie.name === 'countercheck_session');
  return { status: answer.statusCode, body: answer.json(), set, cookie: set && `${set.name}=${set.value}` };
}
const signIn = (email: string, options: Options & { password?: string } = {}) =>
  call('POST', '/session', { ...options, body: { email, password: options.password ?? password } });

describe('signing in', () => {
  it('opens a session whose token is only in the cookie', async () => {
    await addUser('one@example.test');
    const { status, body, set, cookie } = await signIn('One@Example.test ');
    expect([status, body.next, body.me.email]).toEqual([200, 'signed-in', 'one@example.test']);
    expect(set).toMatchObject({ httpOnly: true, sameSite: 'Lax', path: '/', maxAge: 7 * 86_400 });
    const rows = await app.database.as(system, (db) => db.session.findMany());
    expect(rows).toHaveLength(1);
    expect(rows[0]?.id).not.toContain(set?.value);
    expect((await call('GET', '/session', { cookie: cookie! })).body.email).toBe('one@example.test');
    // The hash, stolen from the database, is no token.
    const stolen = `countercheck_session=${rows[0]?.id}`;
    expect((await call('GET', '/session', { cookie: stolen })).status).toBe(401);
  });

  it('gives a new token each time and ends the old one of this browser, not of others', async () => {
    await addUser('two@example.test');
    const phone = await signIn('two@example.test');
    const first = await signIn('two@example.test');
    const second = await signIn('two@example.test', { cookie: first.cookie! });
    expect(second.cookie).not.toBe(first.cookie);
    expect((await call('GET', '/session', { cookie: first.cookie! })).status).toBe(401);
    expect((await call('GET', '/session', { cookie: second.cookie! })).status).toBe(200);
    expect((await call('GET', '/session', { cookie: phone.cookie! })).status).toBe(200);
  });

  it('ends after twelve hours without use and after seven days in any case', async () => {
    const user = await addUser('three@example.test');
    const { cookie } = await signIn('three@example.test');
    const change = (data: object) =>
      app.database.as(system, (db) => db.session.updateMany({ where: { userId: user.id }, data }));
    const hours = (n: number) => new Date(Date.now() + n * 3_600_000);
    await change({ expiresAt: hours(1) });
    expect((await call('GET', '/session', { cookie: cookie! })).status).toBe(200);
    const [row] = await app.database.as(system, (db) => db.session.findMany({ where: { userId: user.id } }));
    expect(row!.expiresAt.getTime()).toBeGreaterThan(hours(11.9).getTime());
    await change({ absoluteExpiresAt: hours(-0.01) });
    expect((await call('GET', '/session', { cookie: cookie! })).status).toBe(401);
    await change({ absoluteExpiresAt: hours(10), expiresAt: hours(-0.01) });
    expect((await call('GET', '/session', { cookie: cookie! })).status).toBe(401);
  });

  it('refuses a deactivated user, and ends what was open', async () => {
    const user = await addUser('four@example.test');
    const { cookie } = await signIn('four@example.test');
    await app.database.as(system, (db) =>
      db.user.update({ where: { id: user.id }, data: { active: false } }),
    );
    expect((await call('GET', '/session', { cookie: cookie! })).status).toBe(401);
    expect((await signIn('four@example.test')).body.code).toBe('wrong-credentials');
  });

  it('throttles an account from one address without locking it elsewhere', async () => {
    await addUser('five@example.test');
    const from = '192.0.2.50';
    const tries = Array.from({ length: 16 }, () => signIn('five@example.test', { from, password: 'wrong' }));
    const codes = (await Promise.all(tries)).map(({ body }) => body.code as string);
    expect(codes.filter((code) => code === 'wrong-credentials')).toHaveLength(10);
    expect(codes.filter((code) => code === 'too-many-requests')).toHaveLength(6);
    const refused = await signIn('five@example.test', { from });
    expect(refused.status).toBe(429);
    expect(refused.body.retryAfterSeconds).toBeGreaterThan(800);
    expect((await signIn('five@example.test', { from: '192.0.2.51' })).status).toBe(200);
  });

  it('signs out', async () => {
    await addUser('six@example.test');
    const { cookie } = await signIn('six@example.test');
    expect((await call('DELETE', '/session', { cookie: cookie! })).status).toBe(200);
    expect((await call('GET', '/session', { cookie: cookie! })).status).toBe(401);
  });
});

describe('the second factor', () => {
  it('is needed once set, works once a step, and a half session is good for nothing else', async () => {
    // In the middle of a time step, so that no step ends during the test.
    const now = Math.floor(Date.now() / 30_000) * 30_000 + 15_000;
    vi.useFakeTimers({ toFake: ['Date'], now });
    await addUser('seven@example.test', { role: 'administrator' });
    const { cookie } = await signIn('seven@example.test');
    const begun = await call('POST', '/me/second-factor', { cookie: cookie!, body: { password } });
    expect(begun.body.qrSvg).toContain('<svg');
    const totp = new TOTP({ secret: Secret.fromBase32(begun.body.secret) });
    const codeIn = (steps: number) => totp.generate({ timestamp: Date.now() + steps * 30_000 });
    const code = codeIn(-1);
    const confirmed = await call('POST', '/me/second-factor/confirmation', {
      cookie: cookie!,
      body: { code },
    });
    expect(confirmed.body.secondFactor.active).toBe(true);
    const row = await app.database.as(system, (db) =>
      db.user.findUniqueOrThrow({ where: { email: 'seven@example.test' } }),
    );
    expect(row.totpSecret).not.toContain(begun.body.secret);

    const half = await signIn('seven@example.test');
    expect(half.body).toEqual({ next: 'second-factor', me: null });
    expect((await call('GET', '/session', { cookie: half.cookie! })).body.code).toBe(
      'second-factor-required',
    );
    expect((await call('GET', '/builders', { cookie: half.cookie! })).status).toBe(401);
    const again = await call('POST', '/session/second-factor', { cookie: half.cookie!, body: { code } });
    expect(again.body.code).toBe('wrong-second-factor');
    const both = await Promise.all(
      [0, 1].map(() =>
        call('POST', '/session/second-factor', { cookie: half.cookie!, body: { code: codeIn(0) } }),
      ),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([200, 401]);
    const whole = both.find(({ status }) => status === 200);
    expect((await call('GET', '/builders', { cookie: whole!.cookie! })).status).toBe(200);
    expect((await call('GET', '/builders', { cookie: half.cookie! })).status).toBe(401);
    vi.useRealTimers();
  });

  it('must be set up where the company says so, before anything else', async () => {
    await addUser('eight@example.test', { role: 'quality' });
    const { cookie } = await signIn('eight@example.test');
    const require = (requireSecondFactor: boolean) =>
      app.database.as(system, (db) => db.company.updateMany({ data: { requireSecondFactor } }));
    await require(true);
    expect((await call('GET', '/builders', { cookie: cookie! })).body.code).toBe(
      'second-factor-setup-required',
    );
    const me = await call('GET', '/session', { cookie: cookie! });
    expect(me.body.secondFactor).toEqual({ active: false, required: true });
    await require(false);
    expect((await call('GET', '/builders', { cookie: cookie! })).status).toBe(200);
  });
});
