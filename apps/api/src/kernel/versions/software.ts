import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const packages = fileURLToPath(new URL('../../../../../packages/', import.meta.url));
/** What turns raw readings into verdicts, and nothing else. */
const deciding = ['assessment', 'distributions', 'measurement', 'rules'];
const { version } = createRequire(import.meta.url)('../../../package.json') as { version: string };

const sha256 = (content: Buffer | string) => createHash('sha256').update(content).digest('hex');

async function sources(): Promise<string> {
  const lines = await Promise.all(
    deciding.map(async (name) => {
      const found = await readdir(join(packages, name, 'src'), { recursive: true });
      const own = found.filter((path) => path.endsWith('.ts') && !path.endsWith('.test.ts'));
      return Promise.all(
        own.map(async (path) => {
          const at = `${name}/src/${path.replaceAll(sep, '/')}`;
          return { at, line: `${sha256(await readFile(join(packages, at)))}  ${at}\n` };
        }),
      );
    }),
  );
  const sorted = lines.flat().sort((a, b) => (a.at < b.at ? -1 : 1));
  return sha256(sorted.map(({ line }) => line).join(''));
}

export interface Software {
  version: string;
  /**
   * SHA-256 over the code that decides, so that what a file was released with can be found again among the versions
   * of the repository. In `packages`: find assessment/src distributions/src measurement/src rules/src -name '*.ts'
   * ! -name '*.test.ts' | LC_ALL=C sort | xargs sha256sum | sha256sum
   */
  sources: string;
}

let known: Promise<Software> | undefined;

/** The software that is running; its code is read once a process. */
export const software = (): Promise<Software> =>
  (known ??= sources().then((hash) => ({ version, sources: hash })));
