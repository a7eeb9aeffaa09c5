import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils';
import type * as wasm from '@prisma/schema-engine-wasm';
import { connections } from './connection.ts';

type Imports = Record<string, (...args: never[]) => unknown>;
type Exports = Record<string, () => void>;
type Bindings = typeof wasm & { __wbg_set_wasm(exports: Exports): void };

// Node has it, but its type declarations leave it to the browser's.
const { WebAssembly } = globalThis as unknown as {
  WebAssembly: {
    instantiate(code: Uint8Array, imports: object): Promise<{ instance: { exports: Exports } }>;
  };
};

let loaded: Promise<Bindings> | undefined;

// Where the engine leaves its last words before it gives up; without it they are lost in a TypeError.
Object.assign(globalThis, {
  PRISMA_WASM_PANIC_REGISTRY: { set_message: (message: string) => console.error(message) },
});

/** The engine arms a ten second timer for its lock and never disarms it; it must not hold the process open. */
function withIdleTimers(bindings: Bindings): Imports {
  const imports = { ...(bindings as unknown as Imports) };
  for (const name of Object.keys(imports).filter((key) => key.startsWith('__wbg_setTimeout'))) {
    imports[name] = (work: () => void, delay: number) => setTimeout(work, delay).unref();
  }
  return imports;
}

/**
 * The package's own entry imports the .wasm file as a module, which Node can do only behind a flag, so the
 * two halves are joined here. Nothing is downloaded: the engine is the official one, compiled to WebAssembly.
 */
async function load(): Promise<Bindings> {
  const folder = dirname(createRequire(import.meta.url).resolve('@prisma/schema-engine-wasm'));
  const script = pathToFileURL(join(folder, 'schema_engine_bg.js')).href;
  const bindings = (await import(/* @vite-ignore */ script)) as Bindings;
  const code = await readFile(join(folder, 'schema_engine_bg.wasm'));
  const { instance } = await WebAssembly.instantiate(code, {
    './schema_engine_bg.js': withIdleTimers(bindings),
  });
  bindings.__wbg_set_wasm(instance.exports);
  instance.exports['__wbindgen_start']?.();
  return bindings;
}

export async function withEngine<T>(
  url: string,
  work: (engine: wasm.SchemaEngine) => Promise<T>,
): Promise<T> {
  const bindings = await (loaded ??= load());
  const { factory, close } = connections(url);
  const options = { datamodels: undefined };
  const engine = await bindings.SchemaEngine.new(
    options,
    () => undefined,
    bindMigrationAwareSqlAdapterFactory(factory),
  );
  try {
    return await work(engine);
  } finally {
    await close();
    engine.free();
  }
}
