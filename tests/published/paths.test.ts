import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const pages = [
  'README.md',
  'DEVELOPERS.md',
  ...readdirSync(join(root, 'docs'))
    .filter((name) => name.endsWith('.md'))
    .map((name) => `docs/${name}`),
];
const places = readdirSync(root).filter((name) => !name.startsWith('.'));
/** folders that a run makes: a clean clone has none of them */
const made = readFileSync(join(root, '.gitignore'), 'utf8')
  .split('\n')
  .map((line) => line.replaceAll(/^\/|\/$/g, ''));
const sources = readdirSync(join(root, 'packages')).map((name) => join('packages', name, 'src'));

interface Named {
  written: string;
  /** where it can lie, from the root */
  paths: string[];
}

/** Paths of the tree that a page names: in its links and in backticks, from the root or, for tests, from a package. */
function named(page: string): Named[] {
  // Examples in fences make files up.
  const text = readFileSync(join(root, page), 'utf8').replace(/^ *```[^]*?^ *```/gm, '');
  const links = [...text.matchAll(/\]\((?!https?:)([^)#\s]+)/g)].map(([, written]) => ({
    written: written!,
    paths: [join(dirname(page), written!)],
  }));
  const ticked = [...text.matchAll(/`([\w./@{},*-]+)`/g)]
    .map(([, written]) => written!)
    .filter((each) => !made.includes(each))
    .filter((each) => places.some((place) => each.startsWith(`${place}/`)) || /\/.+\.test\.ts$/.test(each))
    .map((written) => ({ written, paths: ['', ...sources].map((place) => join(place, written)) }));
  return [...links, ...ticked];
}

describe('what a page names is there', () => {
  it.each(pages)('%s', (page) => {
    const gone = named(page).filter(({ paths }) => !paths.some((path) => existsSync(join(root, path))));
    expect(gone.map(({ written }) => written)).toEqual([]);
  });

  it('finds paths at all', () => {
    expect(named('README.md').length).toBeGreaterThan(20);
  });
});
