import { readdirSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createServer, createServerModuleRunner } from 'vite';

/** @typedef {{ id: string, file: string, run: () => unknown }} LoadedTest */

const vitestHere = fileURLToPath(new URL('vitest-here.mjs', import.meta.url));

/** @param {string} folder */
const testFilesIn = (folder) =>
  readdirSync(folder, { recursive: true })
    .map((name) => join(folder, String(name)))
    .filter((file) => file.endsWith('.test.ts'))
    .sort();

/** Tests as files of the folder this process works in, loaded into the process when they are first asked for. */
export async function openTests() {
  const server = await createServer({
    configFile: false,
    root: process.cwd(),
    appType: 'custom',
    logLevel: 'error',
    server: { middlewareMode: true, watch: null, ws: false },
    optimizeDeps: { noDiscovery: true },
    resolve: { alias: { vitest: vitestHere } },
  });
  const graph = server.environments.ssr.moduleGraph;
  const runner = createServerModuleRunner(server.environments.ssr, { hmr: false });
  const here = /** @type {Record<string, unknown>} */ (globalThis);
  /** @type {Map<string, Map<string, LoadedTest>>} */
  const loaded = new Map();

  /** @param {string} file relative to the folder */
  const load = async (file) => {
    const known = loaded.get(file);
    if (known !== undefined) return known;
    const collected = { path: [], cases: /** @type {{ name: string, run: () => unknown }[]} */ ([]) };
    here.collectedCases = collected;
    await runner.import(join(process.cwd(), file));
    /** @type {Map<string, LoadedTest>} */
    const tests = new Map();
    for (const { name, run } of collected.cases) {
      let id = `${file}#${name}`;
      while (tests.has(id)) id += ' again';
      const inFile = () => {
        here.testFile = file;
        return run();
      };
      tests.set(id, { id, file, run: inFile });
    }
    loaded.set(file, tests);
    return tests;
  };

  /** @param {string} test @param {Set<string>} wanted */
  const reaches = (test, wanted) => {
    const open = [...(graph.getModulesByFile(test) ?? [])];
    const seen = new Set(open);
    for (const module of open) {
      if (module.file !== null && wanted.has(module.file)) return true;
      for (const next of module.importedModules) {
        if (seen.has(next)) continue;
        seen.add(next);
        open.push(next);
      }
    }
    return false;
  };

  return {
    /**
     * The tests beside the code of a package that import any of these files, by however many steps.
     *
     * @param {string[]} files absolute paths
     */
    reaching: async (files) => {
      const wanted = new Set(files);
      const packages = [...new Set(files.map((file) => file.replace(/\/src\/.*/, '')))];
      /** @type {LoadedTest[]} */
      const tests = [];
      for (const test of packages.flatMap(testFilesIn)) {
        const found = await load(relative(process.cwd(), test));
        if (reaches(test, wanted)) tests.push(...found.values());
      }
      return tests;
    },
    /** @param {string} id */
    get: async (id) => {
      const test = (await load(id.slice(0, id.indexOf('#')))).get(id);
      if (test === undefined) throw new Error(`There is no test "${id}".`);
      return test;
    },
    /** Forgets every module, so that nothing computed once is left from before. */
    forget: () => {
      runner.clearCache();
      loaded.clear();
    },
    close: async () => {
      await runner.close();
      await server.close();
    },
  };
}
