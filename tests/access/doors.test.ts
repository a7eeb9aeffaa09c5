import { afterAll, beforeAll, expect, it } from 'vitest';
import { readConfig } from '../../apps/api/src/index.ts';
import { startApp, testConfig, type TestApp } from '../support/app.ts';

let service: TestApp;
beforeAll(async () => {
  service = await startApp({ RATE_LIMIT: '20', TRUST_PROXY: 'true' });
});
afterAll(() => service.close());

const asked = { 'x-requested-with': 'countercheck' };
const signIn = (forwarded: string) =>
  service.app.inject({
    ...{ method: 'POST', url: '/api/session', remoteAddress: '10.0.0.1' },
    headers: { ...asked, 'x-forwarded-for': forwarded },
    payload: { email: service.company.users.quality.email, password: 'not the password at all' },
  });

it('asks for the header of its own pages however the address is written', async () => {
  for (const url of ['/api/password-resets', '/%61pi/password-resets', '/api/password%2dresets']) {
    const payload = { email: 'nobody@weir.example' };
    const answer = await service.app.inject({ method: 'POST', url, payload });
    expect([answer.statusCode, answer.json().code], url).toEqual([403, 'not-allowed']);
  }
});

it('counts requests of an address however they are written', async () => {
  const from = { method: 'GET', remoteAddress: '192.0.2.5' } as const;
  const codes = [];
  for (let i = 0; i < 12; i++)
    for (const url of ['/api/session', '/%61pi/session'])
      codes.push((await service.app.inject({ ...from, url })).statusCode);
  expect(codes.filter((code) => code === 401)).toHaveLength(20);
  expect(codes.at(-1)).toBe(429);
});

it('goes by the address that the proxy saw, not by what the visitor wrote before it', async () => {
  const codes = [];
  for (let i = 0; i < 11; i++) codes.push((await signIn(`203.0.113.${i}, 198.51.100.7`)).statusCode);
  expect(codes).toEqual([...Array<number>(10).fill(401), 429]);
  expect((await signIn('198.51.100.8')).statusCode).toBe(401);
});

it('counts the proxies it is told of', () => {
  const { DATABASE_URL, SECRET_KEY } = testConfig(service.urls.appUrl);
  const told = (TRUST_PROXY?: string) =>
    readConfig({ DATABASE_URL, SECRET_KEY, ...(TRUST_PROXY ? { TRUST_PROXY } : {}) }).TRUST_PROXY;
  expect([told(), told('false'), told('0'), told('true'), told('1'), told('2')]).toEqual([0, 0, 0, 1, 1, 2]);
  expect(() => told('everybody')).toThrow('TRUST_PROXY');
});
