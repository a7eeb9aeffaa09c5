import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { commandOf } from '../../bootstrap/processes.mjs';
import { runProgram, type Account } from '../program.ts';
import type { Binaries } from './binaries.ts';

/**
 * A run that was killed leaves its server running, or a lock file whose process number may since belong to an
 * unrelated program. PostgreSQL would refuse to start in the second case, so both are told apart here.
 */
export async function stopLeftover(
  directory: string,
  binaries: Binaries,
  options: { account: Account | undefined; env: NodeJS.ProcessEnv; cwd: string },
): Promise<void> {
  const lockFile = join(directory, 'postmaster.pid');
  if (!existsSync(lockFile)) return;
  const pid = Number.parseInt(readFileSync(lockFile, 'utf8'), 10);
  if (!commandOf(pid)?.includes(directory)) {
    rmSync(lockFile, { force: true });
    return;
  }
  for (const mode of ['fast', 'immediate']) {
    const args = ['stop', '--wait', '--timeout=30', '-m', mode, '-D', directory];
    if ((await runProgram(binaries.pgCtl, args, options)).code === 0) return;
  }
  throw new Error(`The database server of an earlier run (process ${pid}) does not stop.`);
}
