import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { dataFolder, root } from './places.ts';

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

const record = (step: string) => join(dataFolder, 'made', step);

export function isMade(step: string, from: string): boolean {
  return existsSync(record(step)) && readFileSync(record(step), 'utf8') === from;
}

export function noteMade(step: string, from: string): void {
  mkdirSync(dirname(record(step)), { recursive: true });
  writeFileSync(record(step), from);
}
