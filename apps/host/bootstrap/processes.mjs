import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';

/**
 * The command line of a running process, or nothing when it has ended. Process numbers are used again, so a
 * number alone never tells whether the process that wrote it down is still there.
 * @param {number} pid
 * @returns {string | undefined}
 */
export function commandOf(pid) {
  if (!Number.isInteger(pid) || pid <= 0) return undefined;
  if (existsSync('/proc/self/cmdline')) {
    try {
      return readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ').trim() || undefined;
    } catch {
      return undefined;
    }
  }
  const { status, stdout } = spawnSync('ps', ['-p', String(pid), '-o', 'args='], { encoding: 'utf8' });
  return status === 0 ? stdout.trim() || undefined : undefined;
}
