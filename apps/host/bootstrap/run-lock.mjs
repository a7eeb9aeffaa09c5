import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { commandOf } from './processes.mjs';
import { Trouble } from './trouble.mjs';

/**
 * One run a folder: two would fight over the same data directory.
 * @param {string} file
 * @param {string} address where the run that takes the lock will answer
 * @returns {{ afterKill: boolean, release: () => void }} whether an earlier run ended without letting go
 */
export function takeRunLock(file, address) {
  mkdirSync(dirname(file), { recursive: true });
  let afterKill = false;
  for (;;) {
    try {
      writeFileSync(file, JSON.stringify({ pid: process.pid, address }), { flag: 'wx' });
      return { afterKill, release: () => rmSync(file, { force: true }) };
    } catch (error) {
      if (/** @type {NodeJS.ErrnoException} */ (error).code !== 'EEXIST') throw error;
    }
    const holder = readHolder(file);
    if (holder !== undefined && commandOf(holder.pid)?.includes('start.mjs')) {
      throw new Trouble(
        `Countercheck already runs from this folder (process ${holder.pid}) at ${holder.address}; open that, or stop it first.`,
      );
    }
    afterKill = true;
    rmSync(file, { force: true });
  }
}

/**
 * @param {string} file
 * @returns {{ pid: number, address: string } | undefined}
 */
function readHolder(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return undefined;
  }
}
