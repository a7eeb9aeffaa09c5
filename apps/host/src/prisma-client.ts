import { join } from 'node:path';
import { fingerprint, isMadeFrom, noteMadeFrom } from './fingerprint.ts';
import { root } from './places.ts';
import { mustRun } from './program.ts';

// Generating needs no native engine, and this keeps the tool from looking for one to download.
const withoutEngine = { PRISMA_SCHEMA_ENGINE_BINARY: '/bin/true', PRISMA_HIDE_UPDATE_MESSAGE: '1', CI: '1' };

const generated = join(root, 'prisma', 'generated');

/** Writes the database client when the models or the generator changed since the last time. */
export async function generatePrismaClient(): Promise<'made' | 'current'> {
  const from = fingerprint(['prisma/models', 'prisma.config.ts', 'node_modules/prisma/package.json']);
  if (isMadeFrom(generated, from)) return 'current';
  const tool = join(root, 'node_modules', 'prisma', 'build', 'index.js');
  await mustRun(process.execPath, [tool, 'generate'], {
    cwd: root,
    env: { ...process.env, ...withoutEngine },
  });
  noteMadeFrom(generated, from);
  return 'made';
}
