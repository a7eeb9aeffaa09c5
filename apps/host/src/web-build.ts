import { rename, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fingerprint, isMadeFrom, noteMadeFrom } from './fingerprint.ts';
import { root } from './places.ts';
import { mustRun } from './program.ts';

const web = join(root, 'apps', 'web');
export const webDist = join(web, 'dist');

const sources = [
  ...['src', 'public', 'index.html', 'build', 'vite.config.ts', 'postcss.config.cjs', 'package.json'].map(
    (x) => `apps/web/${x}`,
  ),
  ...['measurement', 'rules', 'assessment', 'contracts', 'quality', 'sampling', 'seal', 'distributions'].map(
    (name) => `packages/${name}/src`,
  ),
  'package-lock.json',
];

/** Builds the web app when its sources changed. The folder is swapped in whole, so a running server never serves half. */
export async function buildWeb(): Promise<'made' | 'current'> {
  const from = fingerprint(sources);
  if (isMadeFrom(webDist, from)) return 'current';
  const unfinished = `${webDist}.${process.pid}`;
  const vite = join(
    dirname(createRequire(join(web, 'package.json')).resolve('vite/package.json')),
    'bin',
    'vite.js',
  );
  try {
    await mustRun(
      process.execPath,
      [vite, 'build', '--outDir', unfinished, '--emptyOutDir', '--logLevel', 'warn'],
      {
        cwd: web,
        env: { ...process.env, NODE_ENV: 'production' },
      },
    );
    noteMadeFrom(unfinished, from);
    await rm(webDist, { recursive: true, force: true });
    await rename(unfinished, webDist);
  } finally {
    await rm(unfinished, { recursive: true, force: true });
  }
  return 'made';
}
