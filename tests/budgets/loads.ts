interface Chunk {
  file: string;
  isEntry?: boolean;
  isDynamicEntry?: boolean;
  /** chunks that come with this one */
  imports?: string[];
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

/** Every script that comes with these sources. */
function scriptsOf(manifest: Manifest, ...sources: string[]): Set<string> {
  const open = [...sources];
  const seen = new Set(open);
  const files = new Set<string>();
  for (const source of open) {
    const chunk = manifest[source];
    if (chunk === undefined) throw new Error(`The build knows nothing of ${source}.`);
    if (chunk.file.endsWith('.js')) files.add(chunk.file);
    for (const next of chunk.imports ?? []) {
      if (seen.has(next)) continue;
      seen.add(next);
      open.push(next);
    }
  }
  return files;
}

/** What is loaded together: to sign in, for the shell, and for each page beyond the shell. */
export function loads(
  manifest: Manifest,
  budgets: { signIn: number; shell: number; page: number },
  over: Readonly<Record<string, number>>,
): Load[] {
  const entry = Object.keys(manifest).find((name) => manifest[name]!.isEntry);
  if (entry === undefined) throw new Error('The build has no entry.');
  const withShell = scriptsOf(manifest, entry, shell);
  const pages = Object.keys(manifest).filter(
    (name) => manifest[name]!.isDynamicEntry && name.startsWith('src/features/'),
  );
  return [
    { name: 'signing in', limit: budgets.signIn, files: [...scriptsOf(manifest, entry, signIn)] },
    { name: 'the shell', limit: budgets.shell, files: [...withShell] },
    ...pages.sort().map((name) => ({
      name,
      limit: over[name] ?? budgets.page,
      files: [...scriptsOf(manifest, name)].filter((file) => !withShell.has(file)),
    })),
  ];
}
