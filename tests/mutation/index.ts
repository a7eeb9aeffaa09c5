import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { setPriority } from 'node:os';
import { join } from 'node:path';
import { Stryker } from '@stryker-mutator/core';
import { counted, printTable, type Row } from './table.ts';

/**
 * Changes the code of both packages in small ways, folder by folder, and asks whether one of the package's own
 * tests notices. A folder whose package is as it was keeps its figures, so that a run which was stopped goes on
 * where it was. Usage: npm run mutation [words of the folders' names]
 *
 * `npm run mutation at-load [words]` tries the changes of what runs only while the code loads, mostly tables: all is
 * loaded anew for each of them. Run it after the folder's other changes, whose outcomes it takes over.
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

async function triedAtLoad({ name, folder }: { name: string; folder: string }): Promise<Row> {
  const label = folder === '.' ? name : `${name}/${folder}`;
  const stem = join(kept, label.replace('/', '-'));
  const report = `${stem}.at-load.json`;
  const source = `packages/${name}/src/${folder === '.' ? '' : `${folder}/`}`;
  if (existsSync(`${stem}.incremental.json`))
    copyFileSync(`${stem}.incremental.json`, `${stem}.at-load.incremental.json`);
  await new Stryker({
    mutate: [`${source}*.ts`, `!${source}*.{test,d}.ts`],
    ignoreStatic: false,
    incrementalFile: `${stem}.at-load.incremental.json`,
    jsonReporter: { fileName: report },
    thresholds: { high: 90, low: goal, break: null },
  }).runMutationTest();
  // what the usual run tried is in both reports
  const [all, usual] = [counted(report), counted(`${stem}.json`)];
  return {
    label,
    killed: all.killed - usual.killed,
    survived: all.survived - usual.survived,
    uncovered: all.uncovered - usual.uncovered,
    left: all.left,
  };
}

setPriority(19);
process.chdir(root);
mkdirSync(kept, { recursive: true });
const given = process.argv.slice(2);
const atLoad = given[0] === 'at-load';
const words = atLoad ? given.slice(1) : given;
const rows: Row[] = [];
for (const each of ['measurement', 'rules'].flatMap(foldersOf)) {
  if (words.length > 0 && !words.some((word) => `${each.name}/${each.folder}`.includes(word))) continue;
  rows.push(await (atLoad ? triedAtLoad(each) : tried(each)));
}
const score = printTable(rows);
if (score < goal) {
  console.error(`${score.toFixed(1)} % of the mutants were noticed; the goal is ${goal} %.`);
  process.exitCode = 1;
}
