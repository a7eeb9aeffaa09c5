import { testOutlines, type TestOutline } from '../tests/outline.ts';
import type { TestDefinition, TestOutcome } from '../types.ts';
import type { Entry } from './part.ts';
import { readEntry } from './read-entry.ts';

/** A test's definition beyond its outline, with the work done on a checked entry in place of `compute`. */
export type TestSpec = Omit<TestDefinition, 'compute' | keyof TestOutline> & {
  work(entry: Entry): TestOutcome;
};

/**
 * Makes a test definition from its outline (`testOutlines`) and the rest. Its `compute` first checks the raw reading
 * against the definition (see `readEntry`) and only then does the work. `compute` never throws: what cannot be used
 * comes back as problems.
 */
export function defineTest(spec: TestSpec): TestDefinition {
  const { work, ...rest } = spec;
  const definition = { ...testOutlines[spec.key], ...rest };
  return {
    ...definition,
    compute(raw, instrument) {
      const read = readEntry(definition, raw, instrument);
      return read.ok ? work(read.entry) : { ok: false, problems: read.problems };
    },
  };
}
