import { mkdtempSync, readFileSync, rmSync, writeFileSync, mkdirSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { claimPort, readAddress } from './address.mjs';
import { Cleanup } from './cleanup.mjs';
import { isInstalled } from './install.mjs';
import { requireNode } from './node-version.mjs';
import { freePort } from './ports.mjs';
import { takeRunLock } from './run-lock.mjs';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'countercheck-bootstrap-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('the version of Node', () => {
  test.each(['20.19.0', '20.20.2', '22.0.0', '24.1.0'])('%s will do', (version) => {
    expect(() => requireNode(version)).not.toThrow();
  });
  test.each(['18.20.0', '20.18.3'])('%s is refused in one line', (version) => {
    expect(() => requireNode(version)).toThrow(/^Countercheck needs Node 20\.19 or newer .*$/);
  });
});

describe('the address', () => {
  test('is this machine and port 4300 unless told otherwise', () => {
    expect(readAddress({})).toEqual({ port: 4300, host: '127.0.0.1', url: 'http://localhost:4300' });
    expect(readAddress({ PORT: '5000', PUBLIC_URL: 'https://rating.example' })).toEqual({
      port: 5000,
      host: '127.0.0.1',
      url: 'https://rating.example',
    });
  });
  test.each(['0', '65536', 'web', '4300.5'])('PORT=%s is refused', (PORT) => {
    expect(() => readAddress({ PORT })).toThrow('whole number');
  });
  test('waits for a port that a killed run still holds', async () => {
    const port = await freePort();
    const holder = createServer().listen(port, '127.0.0.1');
    setTimeout(() => holder.close(), 300);
    await expect(claimPort({ port, host: '127.0.0.1', url: '' }, true)).resolves.toBeUndefined();
  });
});

describe('the lock of a run', () => {
  const file = () => join(folder, 'data', 'run.json');

  test('is let go and can be taken again', () => {
    const lock = takeRunLock(file(), 'http://localhost:4300');
    expect(lock.afterKill).toBe(false);
    lock.release();
    expect(takeRunLock(file(), 'http://localhost:4300').afterKill).toBe(false);
  });
  test.each([
    ['of a process that is gone', JSON.stringify({ pid: 2 ** 30, address: 'x' })],
    ['of a number that another program has now', JSON.stringify({ pid: process.pid, address: 'x' })],
    ['that was cut short', '{"pi'],
  ])('a lock %s is taken over', (_, content) => {
    mkdirSync(join(folder, 'data'));
    writeFileSync(file(), content);
    expect(takeRunLock(file(), 'http://localhost:4300').afterKill).toBe(true);
    expect(JSON.parse(readFileSync(file(), 'utf8'))).toMatchObject({ pid: process.pid });
  });
});

describe('whether the dependencies are there', () => {
  const lockfile = (version: string) =>
    JSON.stringify({
      packages: {
        '': {},
        'apps/api': { version: '0.1.0' },
        'node_modules/zod': { version },
        'node_modules/other-platform': { version: '1.0.0', optional: true },
      },
    });
  const installed = (content: string) => {
    mkdirSync(join(folder, 'node_modules'));
    writeFileSync(join(folder, 'node_modules', '.package-lock.json'), content);
  };

  test('nothing installed, or an install cut short', () => {
    writeFileSync(join(folder, 'package-lock.json'), lockfile('4.0.0'));
    expect(isInstalled(folder)).toBe(false);
    mkdirSync(join(folder, 'node_modules'));
    expect(isInstalled(folder)).toBe(false);
  });
  test('what the lockfile asks for, other platforms aside', () => {
    writeFileSync(join(folder, 'package-lock.json'), lockfile('4.0.0'));
    installed(JSON.stringify({ packages: { 'node_modules/zod': { version: '4.0.0' } } }));
    expect(isInstalled(folder)).toBe(true);
  });
  test('an older version than the lockfile asks for', () => {
    writeFileSync(join(folder, 'package-lock.json'), lockfile('4.0.1'));
    installed(JSON.stringify({ packages: { 'node_modules/zod': { version: '4.0.0' } } }));
    expect(isInstalled(folder)).toBe(false);
  });
});

test('what was started last is stopped first, and a failure stops nothing else from stopping', async () => {
  const cleanup = new Cleanup();
  const order: string[] = [];
  cleanup.add(() => order.push('database'));
  cleanup.add(() => Promise.reject(new Error('a failure on purpose')));
  cleanup.add(() => order.push('API'));
  await cleanup.run();
  await cleanup.run();
  expect(order).toEqual(['API', 'database']);
});
