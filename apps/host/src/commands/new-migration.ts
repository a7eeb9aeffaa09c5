import { mkdirSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { applyMigrations } from '../../../../prisma/migrate/apply.ts';
import { drift } from '../../../../prisma/migrate/diff.ts';
import { migrationsFolder } from '../../../../prisma/migrate/files.ts';
import { root } from '../places.ts';
import { withThrowawayDatabase } from '../throwaway-database.ts';

const name = process.argv[2]
  ?.toLowerCase()
  .replace(/[^a-z0-9]+/g, '_')
  .replace(/^_|_$/g, '');
if (!name) {
  console.error('Give the migration a name: npm run migration -- add_photo_captions');
  process.exit(1);
}

const sql = await withThrowawayDatabase(async (url) => {
  await applyMigrations(url);
  return drift(url);
});

if (sql === undefined) {
  console.log('The migrations already say what the models say; nothing was written.');
} else {
  const time = new Date().toISOString().replace(/\D/g, '').slice(0, 14);
  const folder = join(migrationsFolder, `${time}_${name}`);
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'migration.sql'), sql);
  console.log(
    `${relative(root, join(folder, 'migration.sql'))} was written. Read it before it is committed.`,
  );
}
