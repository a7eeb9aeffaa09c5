import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '../../../../tests/support/app.ts';

const root = fileURLToPath(new URL('../../../../', import.meta.url));
const run = promisify(execFile);
let service: TestApp;
beforeAll(async () => {
  service = await startApp();
});
afterAll(() => service.close());

const create = (email: string) =>
  run(
    process.execPath,
    [
      ...['--import', 'tsx', 'apps/api/src/commands/create-administrator.ts'],
      ...['--email', email, '--name', 'First Keeper'],
    ],
    {
      cwd: root,
      env: {
        ...process.env,
        DATABASE_URL: service.urls.appUrl,
        SECRET_KEY: 'k'.repeat(32),
        PUBLIC_URL: 'http://countercheck.example',
      },
    },
  );

it('prints a link that makes an administrator', async () => {
  const { stdout } = await create('First@weir.example');
  const token = /^http:\/\/countercheck\.example\/access\/([\w-]+)\n$/.exec(stdout)?.[1];
  const password = 'nine otters under the quay';
  expect((await service.stranger.post(`/access-links/${token}`, { password })).statusCode).toBe(200);
  const signedIn = await service.stranger.post('/session', { email: 'first@weir.example', password });
  expect(signedIn.json().me).toMatchObject({ name: 'First Keeper', role: 'administrator' });
});

it('does not take over the account of somebody else', async () => {
  await expect(create('rater@weir.example')).rejects.toThrow(/not an active administrator/);
});
