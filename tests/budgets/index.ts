import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildWeb, webDist } from '@countercheck/host/web-build';
// @ts-expect-error -- it comes without types: a list of steps for size-limit
import file from '@size-limit/file';
import sizeLimit from 'size-limit';
import { loads, type Manifest } from './loads.ts';

/** What a phone at a building site may have to load, in kB of gzipped JavaScript; a part that opens on a page as that. */
const budgets = { signIn: 110, shell: 230, page: 60 };

await buildWeb();
const manifest = JSON.parse(readFileSync(join(webDist, '.vite/manifest.json'), 'utf8')) as Manifest;
const wanted = loads(manifest, budgets);
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
