import { withEngine } from './engine.ts';
import { noFilter, readMigrations } from './files.ts';
import { withMigrationLock } from './lock.ts';
import { prepareQueues } from './queues.ts';
import { runAsCommand } from './command.ts';

/** Brings the database of this owner URL up to the newest migration and names the ones it applied. */
export async function applyMigrations(ownerUrl: string, migrations = readMigrations()): Promise<string[]> {
  return withMigrationLock(ownerUrl, async () => {
    const names = await withEngine(ownerUrl, async (engine) => {
      const { appliedMigrationNames } = await engine.applyMigrations({
        migrationsList: migrations,
        filters: noFilter,
      });
      return appliedMigrationNames;
    });
    await prepareQueues(ownerUrl);
    return names;
  });
}

await runAsCommand(import.meta.url, async (url) => {
  const applied = await applyMigrations(url);
  for (const name of applied) console.log(`applied ${name}`);
  if (applied.length === 0) console.log('The database is up to date.');
});
