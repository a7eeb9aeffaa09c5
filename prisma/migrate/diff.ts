import { withEngine } from './engine.ts';
import { modelsFolder, noFilter, readModels } from './files.ts';
import { runAsCommand } from './command.ts';

/** What would have to change in the database for it to match the models; nothing when they agree. */
export async function drift(databaseUrl: string): Promise<string | undefined> {
  const models = readModels();
  return withEngine(databaseUrl, async (engine) => {
    const { exitCode, stdout } = await engine.diff({
      from: { tag: 'schemaDatasource', ...models, configDir: modelsFolder },
      to: { tag: 'schemaDatamodel', ...models },
      script: true,
      exitCode: true,
      filters: noFilter,
    });
    return exitCode === 0 ? undefined : (stdout ?? 'The database and the models differ.');
  });
}

await runAsCommand(import.meta.url, async (url) => {
  const difference = await drift(url);
  if (difference === undefined) {
    console.log('The database matches the models.');
    return;
  }
  console.log(difference);
  process.exitCode = 2;
});
