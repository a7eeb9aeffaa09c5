import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { RuleSet } from '@countercheck/rules';
import { loadRuleSet, parseText, type TextFile } from '@countercheck/rules/load';

const shippedFolder = fileURLToPath(new URL('../../../../../packages/rules/sets/', import.meta.url));

interface Unread {
  name: string;
  files: TextFile[];
  inherits: string | undefined;
}

async function textsOf(folder: string): Promise<Unread[]> {
  const found: Unread[] = [];
  for (const key of (await readdir(folder)).sort()) {
    for (const version of (await readdir(join(folder, key))).sort()) {
      const names = (await readdir(join(folder, key, version))).filter((file) => file.endsWith('.yaml'));
      const files = await Promise.all(
        names.sort().map(async (file) => ({
          path: `${key}/${version}/${file}`,
          text: await readFile(join(folder, key, version, file), 'utf8'),
        })),
      );
      const header = files.find(({ path }) => path.endsWith('/set.yaml'));
      const data =
        header && (parseText(header).data as { inherits?: { key: string; version: string } } | null);
      const base = data?.inherits;
      found.push({ name: `${key} ${version}`, files, inherits: base && `${base.key} ${base.version}` });
    }
  }
  return found;
}

/** Every rule set of the folder, complete, a set after the one it inherits from. Throws when one has a fault. */
export async function readRuleSets(folder = shippedFolder): Promise<RuleSet[]> {
  const sets = new Map<string, RuleSet>();
  let waiting = await textsOf(folder);
  while (waiting.length > 0) {
    const ready = waiting.filter(({ inherits }) => inherits === undefined || sets.has(inherits));
    // Nothing ready means a base that is not there; the loader says so, with file and line.
    for (const { files, inherits } of ready.length > 0 ? ready : waiting) {
      const set = loadRuleSet(files, inherits === undefined ? undefined : sets.get(inherits));
      sets.set(`${set.key} ${set.version}`, set);
    }
    waiting = waiting.filter((each) => !ready.includes(each));
  }
  return [...sets.values()];
}
