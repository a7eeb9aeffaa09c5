import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { MigrationList, SchemasContainer } from '@prisma/schema-engine-wasm';

export const migrationsFolder = fileURLToPath(new URL('../migrations', import.meta.url));
export const modelsFolder = fileURLToPath(new URL('../models', import.meta.url));

export function readMigrations(folder = migrationsFolder): MigrationList {
  const lock = join(folder, 'migration_lock.toml');
  const names = existsSync(folder)
    ? readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory())
    : [];
  return {
    baseDir: folder,
    lockfile: { path: 'migration_lock.toml', content: existsSync(lock) ? readFileSync(lock, 'utf8') : null },
    shadowDbInitScript: '',
    migrationDirectories: names
      .map(({ name }) => name)
      .sort()
      .map((name) => ({
        path: name,
        migrationFile: {
          path: 'migration.sql',
          content: { tag: 'ok', value: readFileSync(join(folder, name, 'migration.sql'), 'utf8') },
        },
      })),
  };
}

export function readModels(folder = modelsFolder): SchemasContainer {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.prisma'),
  );
  return {
    files: files.sort().map((file) => ({
      path: join(folder, file),
      content: readFileSync(join(folder, file), 'utf8'),
    })),
  };
}

export const noFilter = { externalTables: [], externalEnums: [] };
