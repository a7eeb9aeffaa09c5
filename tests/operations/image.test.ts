import { spawn, type ChildProcess } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { root } from '@countercheck/host/places';
import { runProgram } from '@countercheck/host/program';
import { afterAll, expect, test, vi } from 'vitest';
import { freePort } from '../../apps/host/bootstrap/ports.mjs';
import { freshDatabase } from '../support/database.ts';
import { readDockerfile, type Instruction } from '../support/dockerfile.ts';
import { secretKey } from '../support/secret-key.ts';
import { temporaryFolder } from '../support/temporary.ts';

const folder = temporaryFolder('image');
const stages = readDockerfile(readFileSync(join(root, 'apps/host/Dockerfile'), 'utf8'));
let child: ChildProcess | undefined;

afterAll(async () => {
  child?.kill('SIGKILL');
  await rm(folder, { recursive: true, force: true });
});

// What .dockerignore keeps out; copying it in would prove the wrong thing.
const ignored = new Set(['node_modules', 'dist', '.data', 'generated']);

function copy(step: Extract<Instruction, { kind: 'COPY' }>): void {
  for (const source of step.sources) {
    const into = step.target.endsWith('/')
      ? join(folder, step.target, basename(source))
      : join(folder, step.target);
    mkdirSync(dirname(into), { recursive: true });
    cpSync(join(root, source), into, {
      recursive: true,
      filter: (path) =>
        !path
          .slice(root.length)
          .split('/')
          .some((part) => ignored.has(part)),
    });
  }
}

/** Without a registry the installed packages stand in; what is copied, built and started is proved all the same. */
async function run(command: string, env: NodeJS.ProcessEnv): Promise<void> {
  const { code, output } = await runProgram('sh', ['-c', command], { cwd: folder, env });
  if (code === 0) return;
  const offline = /ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ETIMEDOUT|ENOTCACHED|ENETUNREACH/.test(output);
  if (!offline || !command.startsWith('npm ci'))
    throw new Error(`RUN ${command} ended with ${code}:\n${output}`);
  console.warn('No package registry is reachable: the image test uses the packages of this checkout.');
  for (const place of ['.', 'apps/api', 'apps/web', 'apps/host', 'prisma', 'tests']) {
    const from = join(root, place, 'node_modules');
    if (existsSync(from))
      cpSync(from, join(folder, place, 'node_modules'), { recursive: true, verbatimSymlinks: true });
  }
}

test('the steps of the Dockerfile give an application that starts and answers', async () => {
  const [build = [], final = []] = stages;
  const { NODE_ENV: _, ...outside } = process.env;
  let env: NodeJS.ProcessEnv = { ...outside, npm_config_prefer_offline: 'true' };
  for (const step of build) {
    if (step.kind === 'COPY') copy(step);
    if (step.kind === 'ENV') env = { ...env, ...step.values };
    if (step.kind === 'RUN') await run(step.command, env);
  }

  const values = Object.assign({}, ...final.map((step) => (step.kind === 'ENV' ? step.values : {})));
  const command = final.flatMap((step) => (step.kind === 'CMD' ? step.args : []));
  const database = await freshDatabase();
  const port = await freePort();
  let output = '';
  child = spawn(process.execPath, command.slice(1), {
    cwd: folder,
    env: {
      PATH: process.env['PATH'],
      ...values,
      WEB_DIST: String(values['WEB_DIST']).replace('/app', folder),
      PORT: String(port),
      DATABASE_URL: database.appUrl,
      SECRET_KEY: secretKey,
      PUBLIC_URL: `http://127.0.0.1:${port}`,
    },
  });
  child.stdout?.on('data', (chunk: Buffer) => (output += chunk.toString()));
  child.stderr?.on('data', (chunk: Buffer) => (output += chunk.toString()));
  const get = (path: string) => fetch(`http://127.0.0.1:${port}${path}`).catch(() => undefined);
  await vi.waitFor(
    async () => {
      if ((await get('/api/health'))?.status !== 200)
        throw new Error(`It does not answer:
${output}`);
    },
    { timeout: 30_000, interval: 200 },
  );
  expect(await (await get('/'))?.text()).toContain('<div id="root">');

  const ended = new Promise((resolve) => child?.once('exit', resolve));
  child.kill('SIGTERM');
  expect(await ended).toBe(0);
  await database.drop();
}, 300_000);
