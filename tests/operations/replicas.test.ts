import { createServer, request, type Server } from 'node:http';
import type { Api } from '@countercheck/host/api';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildApp } from '../../apps/api/src/index.ts';
import { freePort } from '../../apps/host/bootstrap/ports.mjs';
import { testConfig } from '../support/app.ts';
import { freshDatabase, type FreshDatabase } from '../support/database.ts';
import { password, smallCompany, type Fixture } from '../support/fixture.ts';
import { startProcess } from '../support/server.ts';

let database: FreshDatabase | undefined;
let company: Fixture;
let replicas: Api[] = [];
let proxy: Server | undefined;
let address: string;
const answeredBy: number[] = [];

/** Hands every request to the next replica, and to the one after when nobody listens there. */
function takeTurns(urls: () => string[]): Server {
  let turn = 0;
  return createServer((incoming, outgoing) => {
    const pass = (attempt: number): void => {
      const which = turn++ % urls().length;
      const onward = request(
        `${urls()[which]}${incoming.url}`,
        { method: incoming.method, headers: incoming.headers },
        (answer) => {
          answeredBy.push(which);
          outgoing.writeHead(answer.statusCode ?? 502, answer.headers);
          answer.pipe(outgoing);
        },
      );
      onward.on('error', () => (attempt < 2 ? pass(attempt + 1) : outgoing.writeHead(502).end()));
      if (incoming.method === 'GET') onward.end();
      else incoming.pipe(onward);
    };
    pass(1);
  });
}

beforeAll(async () => {
  database = await freshDatabase();
  const seeding = await buildApp(testConfig(database.appUrl));
  company = await smallCompany(seeding.database);
  await seeding.close();
  const port = await freePort();
  address = `http://127.0.0.1:${port}`;
  const env = { PUBLIC_URL: address, TRUST_PROXY: 'true' };
  replicas = await Promise.all([startProcess(database, env), startProcess(database, env)]);
  proxy = takeTurns(() => replicas.map(({ url }) => url)).listen(port, '127.0.0.1');
});

afterAll(async () => {
  proxy?.close();
  await Promise.all(replicas.map((replica) => replica.stop()));
  await database?.drop();
});

async function signIn(): Promise<string> {
  const headers = { 'content-type': 'application/json', 'x-requested-with': 'countercheck' };
  const body = JSON.stringify({ email: company.users.office.email, password });
  const answer = await fetch(`${address}/api/session`, { method: 'POST', headers, body });
  expect(answer.status).toBe(200);
  return answer.headers
    .getSetCookie()
    .map((cookie) => cookie.split(';')[0])
    .join('; ');
}

test('who signs in on one replica is known to the other', async () => {
  const cookie = await signIn();
  answeredBy.length = 0;
  const answers = await Promise.all(
    Array.from({ length: 6 }, () =>
      fetch(`${address}/api/houses/${company.house.id}`, { headers: { cookie } }),
    ),
  );
  expect(answers.map(({ status }) => status)).toEqual(Array(6).fill(200));
  expect(new Set(answeredBy)).toEqual(new Set([0, 1]));
});

test('signing out on one replica ends the session on both', async () => {
  const cookie = await signIn();
  const left = await fetch(`${address}/api/session`, {
    method: 'DELETE',
    headers: { 'x-requested-with': 'countercheck', cookie },
  });
  expect(left.ok).toBe(true);
  for (const { url } of replicas) {
    const answer = await fetch(`${url}/api/houses/${company.house.id}`, { headers: { cookie } });
    expect(answer.status).toBe(401);
  }
});

test('with one replica gone the other carries on', async () => {
  const cookie = await signIn();
  await replicas[0]?.stop();
  for (let i = 0; i < 4; i += 1) {
    const answer = await fetch(`${address}/api/houses/${company.house.id}`, { headers: { cookie } });
    expect(answer.status).toBe(200);
  }
});
