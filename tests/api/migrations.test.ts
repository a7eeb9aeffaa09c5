import { expect, test } from 'vitest';
import { applyMigrations } from '../../prisma/migrate/apply.ts';
import { drift } from '../../prisma/migrate/diff.ts';
import { readMigrations } from '../../prisma/migrate/files.ts';
import { freshDatabase, unmigratedDatabase } from '../support/database.ts';

test('the migrations say what the models say', async () => {
  const database = await freshDatabase();
  try {
    expect(await drift(database.ownerUrl)).toBeUndefined();
  } finally {
    await database.drop();
  }
});

test('of two migrators at once one does the work and the other finds it done', async () => {
  const database = await unmigratedDatabase();
  try {
    const both = await Promise.all([applyMigrations(database.ownerUrl), applyMigrations(database.ownerUrl)]);
    const all = readMigrations().migrationDirectories.map(({ path }) => path);
    expect(both.sort((one, other) => one.length - other.length)).toEqual([[], all]);
    expect(await applyMigrations(database.ownerUrl)).toEqual([]);
  } finally {
    await database.drop();
  }
});
