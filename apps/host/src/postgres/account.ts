import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import type { Account } from '../program.ts';

function idOf(flag: '-u' | '-g', name: string): number | undefined {
  const { status, stdout } = spawnSync('id', [flag, name], { encoding: 'utf8' });
  return status === 0 ? Number.parseInt(stdout, 10) : undefined;
}

/**
 * PostgreSQL refuses to run as root. Started by root it runs as an account the machine already has, because
 * adding one would change the machine for the sake of a trial; an existing data directory keeps its owner.
 */
export function serverAccount(dataDirectory: string): Account | undefined {
  if (process.getuid?.() !== 0) return undefined;
  if (existsSync(dataDirectory)) {
    const { uid, gid } = statSync(dataDirectory);
    if (uid !== 0) return { uid, gid };
  }
  for (const name of ['postgres', 'nobody']) {
    const uid = idOf('-u', name);
    const gid = idOf('-g', name);
    if (uid !== undefined && gid !== undefined) return { uid, gid };
  }
  throw new Error(
    'PostgreSQL cannot run as root and this machine has neither a postgres nor a nobody account.',
  );
}

/** Whether the account can pass through every folder above the path, as a clone below /root does not allow. */
export function reachable(path: string, account: Account | undefined): boolean {
  if (account === undefined) return true;
  return spawnSync('/bin/sh', ['-c', 'cd "$1"', 'sh', path], { ...account, stdio: 'ignore' }).status === 0;
}
