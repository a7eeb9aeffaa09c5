import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './places.ts';

function filesBelow(path: string): string[] {
  if (!existsSync(path)) return [];
  if (statSync(path).isFile()) return [path];
  return readdirSync(path, { withFileTypes: true })
    .filter(({ name }) => name !== 'node_modules' && name !== 'dist')
    .flatMap((entry) => filesBelow(join(path, entry.name)));
}

/** One value for the content of all these files and folders, given from the root of the checkout. */
export function fingerprint(paths: readonly string[]): string {
  const hash = createHash('sha256');
  for (const file of paths.flatMap((path) => filesBelow(join(root, path))).sort()) {
    hash.update(file.slice(root.length)).update('\0').update(readFileSync(file)).update('\0');
  }
  return hash.digest('hex');
}

const mark = (folder: string) => join(folder, '.made-from');

/** Whether the folder holds what was made from exactly these sources. */
export function isMadeFrom(folder: string, sources: string): boolean {
  return existsSync(mark(folder)) && readFileSync(mark(folder), 'utf8') === sources;
}

export function noteMadeFrom(folder: string, sources: string): void {
  writeFileSync(mark(folder), sources);
}
