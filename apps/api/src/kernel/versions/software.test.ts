import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { root } from '@countercheck/host/places';
import { expect, it } from 'vitest';
import { software } from './software.ts';

it('names the code that decides by a hash that anybody can work out with common programs', async () => {
  const command =
    "find assessment/src distributions/src measurement/src rules/src -name '*.ts' ! -name '*.test.ts'" +
    ' | LC_ALL=C sort | xargs sha256sum | sha256sum';
  const said = execFileSync('sh', ['-c', command], { cwd: join(root, 'packages'), encoding: 'utf8' });
  const { version, sources } = await software();
  expect(said.split(' ')[0]).toBe(sources);
  expect(version).toMatch(/^\d+\.\d+\.\d+$/);
});
