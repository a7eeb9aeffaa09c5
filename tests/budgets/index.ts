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
 * Pages that are over it, with what they may weigh instead: measured, and never more than that. Nearly all of them
 * carry 20 kB of tests, since they compute or name what was computed. Take a page out once it fits.
 */
const over: Record<string, number> = {
  'src/features/fieldwork/sheet/visit-page.tsx': 118,
  'src/features/file-reviews/page/review-page.tsx': 87,
  'src/features/calculator/calculator-page.tsx': 78,
  'src/features/review/file-page.tsx': 78,
  'src/features/fieldwork/day/day-page.tsx': 75,
  'src/features/retests/differences-page.tsx': 66,
  'src/features/retests/retest-page.tsx': 65,
  // The board's own dragging, 18 kB.
  'src/features/scheduling/board/board-page.tsx': 74,
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
if (tooHeavy > 0) {
  console.error('Load later what is not needed at once (docs/architecture.md, What a page may weigh).');
  process.exitCode = 1;
}
