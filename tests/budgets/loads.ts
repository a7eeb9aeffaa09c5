interface Chunk {
  file: string;
  isEntry?: boolean;
  isDynamicEntry?: boolean;
  /** chunks that come with this one */
  imports?: string[];
  /** chunks that this one loads later */
  dynamicImports?: string[];
}

/** The build's list of chunks by source file. */
export type Manifest = Record<string, Chunk>;

export interface Load {
  name: string;
  /** kB */
  limit: number;
  files: string[];
}

const signIn = 'src/app/entrance.tsx';
const shell = 'src/app/desk.tsx';

/** Every chunk that comes with these sources. */
function chunksOf(manifest: Manifest, ...sources: string[]): Set<string> {
  const open = [...sources];
  const seen = new Set(open);
  for (const source of open) {
    const chunk = manifest[source];
    if (chunk === undefined) throw new Error(`The build knows nothing of ${source}.`);
    for (const next of chunk.imports ?? []) {
      if (seen.has(next)) continue;
      seen.add(next);
      open.push(next);
    }
  }
  return seen;
}

/** Every script that comes with these sources. */
function scriptsOf(manifest: Manifest, ...sources: string[]): Set<string> {
  const files = [...chunksOf(manifest, ...sources)].map((name) => manifest[name]!.file);
  return new Set(files.filter((file) => file.endsWith('.js')));
}

/**
 * The pages and parts from which a part is opened; none of a page, which the shell opens. What they have brought is
 * there already when the part is loaded.
 */
function openersOf(manifest: Manifest, name: string, pages: readonly string[], shell: ReadonlySet<string>) {
  const loading = Object.keys(manifest).filter((key) => manifest[key]!.dynamicImports?.includes(name));
  if (loading.some((key) => shell.has(key))) return [];
  return pages.filter((page) => {
    const own = chunksOf(manifest, page);
    return page !== name && loading.some((key) => own.has(key));
  });
}

/**
 * What is loaded together: to sign in, for the shell, for each page beyond the shell, and for each part that opens on
 * a page beyond that page.
 */
export function loads(manifest: Manifest, budgets: { signIn: number; shell: number; page: number }): Load[] {
  const entry = Object.keys(manifest).find((name) => manifest[name]!.isEntry);
  if (entry === undefined) throw new Error('The build has no entry.');
  const shellChunks = chunksOf(manifest, entry, shell);
  const withShell = scriptsOf(manifest, entry, shell);
  const pages = Object.keys(manifest).filter(
    (name) => manifest[name]!.isDynamicEntry && name.startsWith('src/features/'),
  );
  const beyond = (name: string, there: ReadonlySet<string>) =>
    [...scriptsOf(manifest, name)].filter((file) => !withShell.has(file) && !there.has(file));
  return [
    { name: 'signing in', limit: budgets.signIn, files: [...scriptsOf(manifest, entry, signIn)] },
    { name: 'the shell', limit: budgets.shell, files: [...withShell] },
    ...pages.sort().flatMap((name): Load[] => {
      const limit = budgets.page;
      const openers = openersOf(manifest, name, pages, shellChunks);
      if (openers.length === 0) return [{ name, limit, files: beyond(name, new Set()) }];
      return openers.map((opener) => ({
        name: `${name}, opened on ${opener.replace(/.*\//, '')}`,
        limit,
        files: beyond(name, scriptsOf(manifest, opener)),
      }));
    }),
  ];
}
