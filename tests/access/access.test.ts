import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { routes, type RouteContract } from '@countercheck/contracts';
import { system } from '../../apps/api/src/kernel/actor.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { ask } from './ask.ts';
import { columns, readMatrix, refusals } from './matrix.ts';
import { addRecords, type Records } from './records.ts';
import { requests } from './requests.ts';

const matrix = readMatrix();
const contracts = new Map<string, RouteContract>(
  Object.entries(routes).flatMap(([feature, named]) =>
    Object.entries(named).map(([name, contract]) => [`${feature}.${name}`, contract as RouteContract]),
  ),
);

let service: TestApp;
let records: Records;
beforeAll(async () => {
  service = await startApp();
  records = await addRecords(service);
});
afterAll(() => service.close());

describe('the matrix', () => {
  it('has a row for every route and a route for every row', () => {
    expect([...matrix.keys()].sort()).toEqual([...contracts.keys()].sort());
  });

  it('is asked about with a request for every route', () => {
    const asked = Object.entries(requests).flatMap(([feature, named]) =>
      Object.keys(named).map((name) => `${feature}.${name}`),
    );
    expect(asked.sort()).toEqual([...contracts.keys()].sort());
  });
});

describe.each([...contracts])('%s', (route, contract) => {
  it('is implemented', () => {
    const url = `/api${contract.path}`;
    const there = service.app.hasRoute({ method: contract.method, url });
    expect(there, `contract route not implemented: ${contract.method} ${url}`).toBe(true);
  });

  it.each(columns)('%s', async (column) => {
    const [feature, name] = route.split('.') as [string, string];
    const asked = await requests[feature]![name]!(records);
    const answer = await ask(service, contract, column, asked, records.image);
    const problem = String(answer.headers['content-type']).includes('problem+json');
    const code = problem ? (answer.json().code as string) : 'done';
    const cell = matrix.get(route)?.[column] ?? 'no cell';
    if (cell === '+') {
      expect(['done', ...(asked.after ?? [])], answer.body.slice(0, 600)).toContain(code);
      expect(answer.statusCode).toBeLessThan(500);
    } else {
      expect(code, answer.body.slice(0, 600)).toBe(refusals[cell]);
    }
    if (column === 'stranger')
      for (const secret of records.secrets) expect(answer.body).not.toContain(secret);
  });
});

describe("an installer's link", () => {
  const open = (token: string) => service.stranger.get(`/figures/${token}`);
  const past = new Date(Date.now() - 1000);

  it('says when it has expired or was withdrawn', async () => {
    const expired = await records.link({ expiresAt: past });
    const revoked = await records.link({ revokedAt: past });
    expect((await open(expired.token)).json()).toMatchObject({ code: 'link-expired', status: 410 });
    expect((await open(revoked.token)).json()).toMatchObject({ code: 'link-revoked', status: 410 });
  });

  it('notes that it was used, and stops with the installer', async () => {
    const { id, token } = await records.link();
    const row = () =>
      service.app.database.as(system, (db) => db.installerLink.findUniqueOrThrow({ where: { id } }));
    expect((await row()).lastUsedAt).toBeNull();
    expect((await open(token)).statusCode).toBe(200);
    expect((await row()).lastUsedAt).not.toBeNull();
    const set = (active: boolean) =>
      service.app.database.as(system, (db) => db.installer.updateMany({ data: { active } }));
    await set(false);
    expect((await open(token)).json().code).toBe('link-revoked');
    await set(true);
  });
});

it('refuses a change that does not carry the header of the page', async () => {
  const answer = await service.app.inject({ method: 'DELETE', url: '/api/session' });
  expect(answer.json()).toMatchObject({ code: 'not-allowed', status: 403 });
});
