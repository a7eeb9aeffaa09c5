import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { setPriority } from 'node:os';
import { join } from 'node:path';
import { Stryker } from '@stryker-mutator/core';
import { counted, printTable, type Row } from './table.ts';

/**
 * Changes the code of both packages in small ways, folder by folder, and asks whether one of the package's own
 * tests notices. A folder whose package is as it was keeps its figures, so that a run which was stopped goes on
 * where it was. Usage: npm run mutation [words of the folders' names]
 */
const root = join(import.meta.dirname, '../..');
const kept = join(root, '.data/mutation');
const goal = 85;

const filesIn = (folder: string) =>
  readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();

/** What a folder's figures rest on: everything in its package, and how mutants are tried. */
function fingerprint(name: string) {
  const hash = createHash('sha256');
  const settings = [join(root, 'stryker.config.json'), ...filesIn('tests/mutation')];
  for (const file of [...filesIn(`packages/${name}`), ...settings])
    hash.update(file).update(readFileSync(file));
  return hash.digest('hex');
}

/** The folders of a package's code, and `.` for the files that lie beside them. */
function foldersOf(name: string) {
  const source = join(root, 'packages', name, 'src');
  const folders = readdirSync(source, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && !['test', 'testing'].includes(entry.name))
    .map((entry) => entry.name);
  return ['.', ...folders.sort()].map((folder) => ({ name, folder }));
}

async function tried({ name, folder }: { name: string; folder: string }): Promise<Row> {
  const label = folder === '.' ? name : `${name}/${folder}`;
  const stem = join(kept, label.replace('/', '-'));
  const [report, mark, now] = [`${stem}.json`, `${stem}.mark`, fingerprint(name)];
  if (!existsSync(report) || !existsSync(mark) || readFileSync(mark, 'utf8') !== now) {
    const source = `packages/${name}/src/${folder === '.' ? '' : `${folder}/`}`;
    await new Stryker({
      mutate: [`${source}*.ts`, `!${source}*.{test,d}.ts`],
      incrementalFile: `${stem}.incremental.json`,
      jsonReporter: { fileName: report },
      thresholds: { high: 90, low: goal, break: null },
    }).runMutationTest();
    writeFileSync(mark, now);
  }
  return { label, ...counted(report) };
}

setPriority(19);
process.chdir(root);
mkdirSync(kept, { recursive: true });
const words = process.argv.slice(2);
const rows: Row[] = [];
for (const each of ['measurement', 'rules'].flatMap(foldersOf)) {
  if (words.length > 0 && !words.some((word) => `${each.name}/${each.folder}`.includes(word))) continue;
  rows.push(await tried(each));
}
const score = printTable(rows);
if (score < goal) {
  console.error(`${score.toFixed(1)} % of the mutants were noticed; the goal is ${goal} %.`);
  process.exitCode = 1;
}
