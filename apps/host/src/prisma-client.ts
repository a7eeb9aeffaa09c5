import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fingerprint, isMade, noteMade } from './fingerprint.ts';
import { root } from './places.ts';
import { mustRun } from './program.ts';

// Generating needs no native engine, and this keeps the tool from looking for one to download.
const withoutEngine = { PRISMA_SCHEMA_ENGINE_BINARY: '/bin/true', PRISMA_HIDE_UPDATE_MESSAGE: '1', CI: '1' };

/** Writes the database client when the models or the generator changed since the last time. */
export async function generatePrismaClient(): Promise<'made' | 'current'> {
  if (!existsSync(join(root, 'prisma', 'models'))) return 'current';
  const from = fingerprint([
    'prisma/models',
    'prisma.config.ts',
    'prisma/prisma.config.ts',
    'node_modules/prisma/package.json',
  ]);
  if (isMade('prisma-client', from) && existsSync(join(root, 'prisma', 'generated'))) return 'current';
  const tool = join(root, 'node_modules', 'prisma', 'build', 'index.js');
  await mustRun(process.execPath, [tool, 'generate'], {
    cwd: root,
    env: { ...process.env, ...withoutEngine },
  });
  noteMade('prisma-client', from);
  return 'made';
}
