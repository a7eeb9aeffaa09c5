import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '@countercheck/host/places';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { readDockerfile } from '../support/dockerfile.ts';

interface Service {
  image?: string;
  build?: { context: string; dockerfile: string };
  environment?: Record<string, string>;
  depends_on?: Record<string, { condition: string }>;
  healthcheck?: { test: string[] };
  restart?: string;
  command?: string[];
  volumes?: string[];
}

const read = (path: string) => readFileSync(join(root, path), 'utf8');
const compose = parse(read('docker-compose.yml'), { merge: true }) as { services: Record<string, Service> };
const service = (name: string): Service => {
  const found = compose.services[name];
  if (!found) throw new Error(`no service ${name}`);
  return found;
};

describe('docker-compose.yml', () => {
  test.each(['postgres', 'app', 'app-second', 'proxy'])('%s is watched and comes back by itself', (name) => {
    expect(service(name).healthcheck?.test.length).toBeGreaterThan(1);
    expect(service(name).restart).toBe('unless-stopped');
  });

  test('both replicas are one image with one configuration and wait for the migrations', () => {
    expect(service('app-second')).toEqual(service('app'));
    expect(service('app').depends_on).toEqual({ migrate: { condition: 'service_completed_successfully' } });
    expect(service('migrate').depends_on).toEqual({ postgres: { condition: 'service_healthy' } });
    expect(service('migrate').restart).toBe('no');
    expect(service('app').healthcheck?.test.join(' ')).toContain('/api/health');
  });

  test('no secret has a default, and each one that is missing is named', () => {
    const used = [...read('docker-compose.yml').matchAll(/\$\{(\w+)(:\?|:-)?/g)];
    const required = new Set(used.filter(([, , how]) => how === ':?').map(([, name]) => name));
    const optional = new Set(used.filter(([, , how]) => how !== ':?').map(([, name]) => name));
    expect([...required].sort()).toEqual(
      ['APP_PASSWORD', 'MAIL_FROM', 'OWNER_PASSWORD', 'PUBLIC_URL', 'SECRET_KEY', 'SMTP_URL'].sort(),
    );
    expect([...optional].sort()).toEqual(['COOKIE_SECURE', 'LISTEN', 'LOG_LEVEL']);
  });

  test('only the migration job signs in as the owner', () => {
    expect(service('migrate').environment?.['DATABASE_URL']).toContain('//countercheck_owner:');
    expect(service('app').environment?.['DATABASE_URL']).toContain('//countercheck_app:');
    expect(JSON.stringify(service('app'))).not.toContain('OWNER_PASSWORD');
  });

  test('no service of it loads the demo company', () => {
    expect(read('docker-compose.yml')).not.toMatch(/demo/i);
  });

  test('every file it names is in the repository', () => {
    const mounted = Object.values(compose.services)
      .flatMap(({ volumes }) => volumes ?? [])
      .filter((volume) => volume.startsWith('./'))
      .map((volume) => volume.split(':')[0] ?? '');
    const scripts = Object.values(compose.services).flatMap(({ command }) =>
      command?.filter((x) => x.endsWith('.ts')),
    );
    const dockerfiles = Object.values(compose.services).flatMap(({ build }) => build?.dockerfile ?? []);
    expect([...mounted, ...scripts, ...dockerfiles].length).toBeGreaterThan(4);
    for (const path of [...mounted, ...scripts, ...dockerfiles]) {
      expect(existsSync(join(root, path ?? '')), path).toBe(true);
    }
  });

  test('the proxy shares the work between both replicas and repeats no submission', () => {
    const proxy = read('apps/host/proxy/nginx.conf');
    expect(proxy).toContain('server app:4300');
    expect(proxy).toContain('server app-second:4300');
    expect(proxy).not.toContain('non_idempotent');
  });
});

test('everything the Dockerfile copies is in the repository', () => {
  const copied = readDockerfile(read('apps/host/Dockerfile')).flatMap((stage) =>
    stage.flatMap((step) => (step.kind === 'COPY' && !step.from ? step.sources : [])),
  );
  expect(copied.length).toBeGreaterThan(10);
  for (const source of copied) expect(existsSync(join(root, source)), source).toBe(true);
});
