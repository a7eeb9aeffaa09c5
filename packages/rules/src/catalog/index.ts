import { testKeys, type TestKey } from '@countercheck/measurement';
import type { Item } from '../schema/index.ts';
import type { Entry } from './entry.ts';
import { houseEntries } from './house.ts';
import { measuredEntry } from './measured.ts';
import { reportedEntries } from './reported.ts';
import { subjectEntries } from './subject.ts';

const fixed = new Map(
  [...houseEntries, ...subjectEntries, ...reportedEntries].map((each) => [each.name, each]),
);

type Asker = Pick<Item, 'subject' | 'tests'>;

function findMeasured(name: string, asker: Asker): Entry | string {
  const [, first = '', second] = name.split('.');
  const kinds = asker.subject;
  if (second !== undefined) {
    if (!(testKeys as readonly string[]).includes(first)) return `there is no test "${first}"`;
    return (
      measuredEntry(first as TestKey, second, 'house') ?? `the test "${first}" gives the house no "${second}"`
    );
  }
  for (const test of asker.tests) {
    const entry = measuredEntry(test, first, kinds);
    if (entry) return entry;
  }
  return `none of the tests ${asker.tests.join(', ')} gives a ${kinds} "${first}"`;
}

/**
 * The named quantity as an item sees it, or a sentence saying why there is none. `measured.<result>` is a
 * result of the item's own tests on its own subject; `measured.<test>.<result>` is a result for the house.
 */
export function findEntry(name: string, asker: Asker): Entry | string {
  if (name.startsWith('measured.')) return findMeasured(name, asker);
  const entry = fixed.get(name);
  if (!entry) return `nobody knows a quantity "${name}"`;
  if (!entry.subjects.includes(asker.subject)) return `"${name}" is not known of a ${asker.subject}`;
  return entry;
}

/** Every named quantity that does not depend on the item that asks: house, subject and reported. */
export const fixedEntries: readonly Entry[] = [...fixed.values()];

export * from './entry.ts';
export { derivedResults, measuredEntries } from './measured.ts';
export { reportedFigures, type ReportedFigure } from './reported.ts';
