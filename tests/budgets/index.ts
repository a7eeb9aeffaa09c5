import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildWeb, webDist } from '@countercheck/host/web-build';
// @ts-expect-error -- it comes without types: a list of steps for size-limit
import file from '@size-limit/file';
import sizeLimit from 'size-limit';
import { loads, type Manifest } from './loads.ts';

/** What a phone at a building site may have to load, in kB of gzipped JavaScript. */
const budgets = { signIn: 110, shell: 230, page: 60 };

/**
 * Pages that are over it, with what they may weigh instead: measured, and never more than that. They compute while
 * somebody types, so they carry the tests, the rules and 40 kB of statistics. Take a page out once it fits.
 */
const over: Record<string, number> = {
  'src/features/fieldwork/sheet/visit-page.tsx': 145,
  'src/features/calculator/calculator-page.tsx': 118,
  'src/features/review/file-page.tsx': 116,
  'src/features/recall/recall-page.tsx': 95,
  'src/features/rule-sets/rule-set-page.tsx': 76,
};

await buildWeb();
const manifest = JSON.parse(readFileSync(join(webDist, '.vite/manifest.json'), 'utf8')) as Manifest;
const wanted = loads(manifest, budgets, over);
const checks = wanted.map(({ files }) => ({ files: files.map((name) => join(webDist, name)), gzip: true }));
const measured = (await sizeLimit([file], { checks })) as { size: number }[];

let tooHeavy = 0;
for (const [index, { name, limit }] of wanted.entries()) {
  const size = measured[index]!.size / 1000;
  const fits = size <= limit;
  if (!fits) tooHeavy += 1;
  console.log(
    `${fits ? '✓' : '✗'} ${size.toFixed(1).padStart(6)} of ${String(limit).padStart(3)} kB  ${name}`,
  );
}
const idle = Object.keys(over).filter((name) => !wanted.some((each) => each.name === name));
for (const name of idle) console.log(`✗ ${name} has an exception, and is no page any more`);
if (tooHeavy + idle.length > 0) {
  console.error('Load later what is not needed at once (docs/architecture.md, What a page may weigh).');
  process.exitCode = 1;
}
