import { chmodSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const prefix = 'countercheck-test-';

function alive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** Ends the database servers of runs that were killed; their folders name the process that made them. */
function sweep(): void {
  for (const name of readdirSync(tmpdir())) {
    if (!name.startsWith(prefix)) continue;
    const folder = join(tmpdir(), name);
    try {
      if (alive(Number(readFileSync(join(folder, 'made-by'), 'utf8')))) continue;
      const server = Number.parseInt(readFileSync(join(folder, 'data', 'postmaster.pid'), 'utf8'), 10);
      if (readFileSync(`/proc/${server}/cmdline`, 'utf8').includes(folder)) process.kill(server, 'SIGQUIT');
    } catch {
      // No server, or no longer: only the folder is left.
    }
    try {
      rmSync(folder, { recursive: true, force: true });
    } catch {
      // Another account's folder.
    }
  }
}

/** A folder outside the checkout that other accounts may pass through, as PostgreSQL under root must. */
export function temporaryFolder(purpose: string): string {
  sweep();
  const folder = mkdtempSync(join(tmpdir(), `${prefix}${purpose}-`));
  chmodSync(folder, 0o755);
  writeFileSync(join(folder, 'made-by'), String(process.pid));
  return folder;
}
