import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const dataFolder = fileURLToPath(new URL('../../../../../packages/quality/', import.meta.url));

/** The dated versions in a folder of the quality package, each as its path and text, in the order of their names. */
export async function readVersions(folder: string): Promise<{ path: string; text: string }[]> {
  const names = (await readdir(join(dataFolder, folder))).filter((name) => name.endsWith('.yaml')).sort();
  return Promise.all(
    names.map(async (name) => ({
      path: `${folder}/${name}`,
      text: await readFile(join(dataFolder, folder, name), 'utf8'),
    })),
  );
}
