import { build, type Rolldown, type UserConfig } from 'vite';

type Group = Rolldown.CodeSplittingGroup;

/** A part that this many pages or more share is loaded with the others of its kind. */
const shared = 20;
/** More than this (characters before packing) waits for a page that needs it. */
const light = 12_000;

async function plainBuild(config: UserConfig): Promise<Rolldown.OutputChunk[]> {
  const built = await build({
    ...config,
    configFile: false,
    logLevel: 'error',
    build: { ...config.build, write: false, minify: false },
  });
  const [first] = Array.isArray(built) ? built : [built];
  if (!first || !('output' in first)) throw new Error('The build gave nothing to be put together.');
  return first.output.filter((each) => each.type === 'chunk');
}

function comesWith(chunks: ReadonlyMap<string, Rolldown.OutputChunk>, name: string): Set<string> {
  const seen = new Set([name]);
  for (const each of seen) for (const next of chunks.get(each)?.imports ?? []) seen.add(next);
  return seen;
}

/**
 * What is always loaded together comes in one file. Left alone the bundler makes a file of everything that two pages
 * share: more than a hundred for the rater's sheet, each of which costs a slow phone some milliseconds. A first build
 * tells what is needed where; the second one puts into one file each
 * - what signing in and the desk both need, and what only the desk needs,
 * - the small parts that most pages use.
 */
export async function together(config: UserConfig): Promise<Group[]> {
  const list = await plainBuild(config);
  const chunks = new Map(list.map((chunk) => [chunk.fileName, chunk]));
  const programOf = (file: string): Set<string> => {
    const chunk = list.find(({ facadeModuleId }) => facadeModuleId?.endsWith(file));
    if (!chunk) throw new Error(`The build knows nothing of ${file}.`);
    return comesWith(chunks, chunk.fileName);
  };
  const main = programOf('/index.html');
  const entrance = programOf('/app/entrance.tsx');
  const desk = programOf('/app/desk.tsx');
  const always = new Set([...main, ...entrance, ...desk]);

  const pages = list.filter(({ isDynamicEntry }) => isDynamicEntry).map(({ fileName }) => fileName);
  const uses = new Map<string, number>();
  for (const page of pages)
    for (const file of comesWith(chunks, page)) uses.set(file, (uses.get(file) ?? 0) + 1);
  const isSmall = ({ fileName, isDynamicEntry, code }: Rolldown.OutputChunk) =>
    !isDynamicEntry && !always.has(fileName) && code.length <= light && uses.get(fileName)! >= shared;
  const parts = new Map(list.filter(isSmall).map((chunk) => [chunk.fileName, chunk]));
  // What leans on something outside stays outside: two files that need each other begin in the wrong order.
  for (let before = -1; before !== parts.size;) {
    before = parts.size;
    for (const [file, { imports }] of parts)
      if (!imports.every((each) => parts.has(each) || always.has(each))) parts.delete(file);
  }

  const group = (name: string, files: Iterable<string>): Group => {
    // A program's own beginning stays the file by which it is loaded.
    const ids = new Set(
      [...files].flatMap((file) => {
        const { moduleIds, facadeModuleId } = chunks.get(file)!;
        return moduleIds.filter((id) => id !== facadeModuleId);
      }),
    );
    return { name, test: (id) => ids.has(id), includeDependenciesRecursively: false };
  };
  const beyondMain = (files: Set<string>) => [...files].filter((file) => !main.has(file));
  return [
    group(
      'base',
      beyondMain(desk).filter((file) => entrance.has(file)),
    ),
    group(
      'shell',
      beyondMain(desk).filter((file) => !entrance.has(file)),
    ),
    group('parts', parts.keys()),
  ];
}
