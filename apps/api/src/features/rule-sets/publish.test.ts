import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { testConfig } from '../../../../../tests/support/app.ts';
import { freshDatabase, type FreshDatabase } from '../../../../../tests/support/database.ts';
import { buildApp } from '../../app.ts';
import { system } from '../../kernel/actor.ts';
import { ruleSetHash } from './hash.ts';

const shipped = fileURLToPath(new URL('../../../../../packages/rules/sets/', import.meta.url));
let database: FreshDatabase;
let folder: string;

beforeAll(async () => {
  database = await freshDatabase();
  folder = await mkdtemp(join(tmpdir(), 'countercheck-sets-'));
  await cp(shipped, folder, { recursive: true });
});
afterAll(async () => {
  await rm(folder, { recursive: true });
  await database.drop();
});

const start = async () => {
  const app = await buildApp(testConfig(database.appUrl, { RULE_SETS_DIR: folder }));
  try {
    await app.ready();
    return await app.database.as(system, async (db) => ({
      sets: await db.ruleSet.findMany({ orderBy: [{ key: 'asc' }, { version: 'asc' }] }),
      company: await db.company.findMany(),
      events: await db.event.count({ where: { action: 'rule set published' } }),
    }));
  } finally {
    await app.close();
  }
};

describe('publishing at the start', () => {
  it('happens once, also when two processes start together', async () => {
    const [{ sets, company, events }] = await Promise.all([start(), start()]);
    expect(sets.map(({ key, version }) => `${key} ${version}`).sort()).toEqual([
      'common-practice 2026.1',
      'common-practice 2026.2',
      'company-strict 2026.1',
      'company-strict 2026.2',
      'energy-code-2018 2018.1',
      'energy-code-2018 2018.2',
      'energy-code-2018 2018.3',
    ]);
    expect(events).toBe(sets.length);
    expect(company).toHaveLength(1);
    expect(company[0]?.defaultRuleSetId).toBe(sets.find(({ version }) => version === '2026.2')?.id);
    for (const set of sets) expect(ruleSetHash(set.body)).toBe(set.hash);
  });

  it('refuses to start when a published version reads differently now', async () => {
    const file = join(folder, 'common-practice/2026.1/set.yaml');
    const text = await readFile(file, 'utf8');
    await writeFile(file, text.replace('Common practice', 'Common practise'));
    await expect(start()).rejects.toThrow(
      /^Rule set common-practice 2026\.1 was published with other content.*new version\.$/,
    );
    await writeFile(file, `# a remark is no change\n${text}`);
    await expect(start()).resolves.toBeDefined();
  });

  it('names file and line of a set that cannot be read', async () => {
    const file = join(folder, 'company-strict/2026.1/set.yaml');
    const text = await readFile(file, 'utf8');
    await writeFile(file, text.replace('published: true', 'published: perhaps'));
    await expect(start()).rejects.toThrow(/company-strict\/2026\.1\/set\.yaml:\d+: published/);
    await writeFile(file, text);
  });
});
