import type { TestDefinition, TestOutcome } from '../types.ts';
import type { Entry } from './part.ts';
import { readEntry } from './read-entry.ts';

/** A test's definition with the work done on a checked entry in place of `compute`. */
export type TestSpec = Omit<TestDefinition, 'compute'> & { work(entry: Entry): TestOutcome };

/**
 * Makes a test definition whose `compute` first checks the raw reading against the definition
 * (see `readEntry`) and only then does the work. `compute` never throws: what cannot be used comes back as
 * problems.
 */
export function defineTest(spec: TestSpec): TestDefinition {
  const { work, ...definition } = spec;
  return {
    ...definition,
    compute(raw, instrument) {
      const read = readEntry(definition, raw, instrument);
      return read.ok ? work(read.entry) : { ok: false, problems: read.problems };
    },
  };
}
