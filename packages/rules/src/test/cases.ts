import { testDefinitions, type TestKey } from '@countercheck/measurement';
import { parse } from 'yaml';
import * as z from 'zod';
import { findEntry } from '../catalog/index.ts';
import type { Item, RuleSet } from '../schema/index.ts';
import type { ShippedVersion } from './sets.ts';
import { statuses, type Facts, type Measured, type SubjectFacts } from '../types.ts';

const texts = import.meta.glob('../../cases/**/*.yaml', { query: '?raw', import: 'default', eager: true });

const value = z.union([z.string(), z.number(), z.boolean(), z.null()]);
const caseSchema = z.strictObject({
  case: z.string(),
  given: z.strictObject({
    house: z.record(z.string(), value).optional(),
    subject: z.record(z.string(), value).optional(),
    reported: z.record(z.string(), z.number().nullable()).optional(),
    hidden: z.boolean().optional(),
    measured: z.record(z.string(), z.number()).optional(),
    doesNotCount: z.string().optional(),
  }),
  expect: z.strictObject({
    status: z.enum(statuses),
    reason: z.string().optional(),
    needed: z.string().optional(),
    wouldChange: z.string().optional(),
    stopWork: z.string().nullable().optional(),
  }),
});
const fileSchema = z.strictObject({ item: z.string(), cases: z.array(caseSchema).min(1) });

export type Case = z.infer<typeof caseSchema>;

const plainHouse = z
  .strictObject({
    house: z.record(z.string(), value),
    subjects: z.record(z.string(), z.record(z.string(), value)),
  })
  .parse(parse(texts['../../cases/plain-house.yaml'] ?? ''));

type CaseFile = z.infer<typeof fileSchema>;

/**
 * The case files of one version, by item. Where it has none of its own for an item, those of the version of the same
 * set before it hold: what it did not change is still so, and what it did has to be said.
 */
export function casesOf({ set, base }: ShippedVersion): CaseFile[] {
  const own = Object.entries(texts)
    .filter(([path]) => path.startsWith(`../../cases/${set.key}/${set.version}/`))
    .map(([, text]) => fileSchema.parse(parse(text)));
  const before = base?.set.key === set.key ? casesOf(base) : [];
  return [...own, ...before.filter(({ item }) => !own.some((each) => each.item === item))];
}

/** A measured value by its name, for hand-made facts. */
export function measuredValue(
  test: TestKey,
  key: string,
  number: number,
  subject: SubjectFacts['kind'],
): Measured {
  const entry = findEntry(subject === 'house' ? `measured.${test}.${key}` : `measured.${key}`, {
    subject,
    tests: [test],
  });
  if (typeof entry === 'string') throw new Error(entry);
  const made = { key, label: entry.label, quantity: 'count' as const, value: number, unit: '1' as const };
  return {
    values: {
      [key]: { ...made, standardUncertainty: null, expandedUncertainty: null, coverageFactor: null },
    },
    counts: true,
    whyNot: null,
    remarks: [],
    steps: [],
    readingIds: [`${test}-${key}`],
  };
}

function testGiving(key: string, item: Item): TestKey {
  const entry = findEntry(`measured.${key}`, item);
  if (typeof entry === 'string') throw new Error(entry);
  return entry.test!;
}

/** The facts that a case describes: the plain house, with what the case says about it. */
export function factsOf({ given }: Case, item: Item): Facts {
  const own: SubjectFacts = {
    id: item.subject === 'house' ? 'house' : 'one',
    kind: item.subject,
    label: item.subject,
    facts: { ...plainHouse.subjects[item.subject], ...given.subject },
    reported: given.reported ?? {},
    reportedHidden: given.hidden ?? false,
  };
  const house: SubjectFacts = {
    ...own,
    id: 'house',
    kind: 'house',
    label: 'House',
    facts: {},
    reported: {},
    reportedHidden: false,
  };
  const measured: Facts['measured'] = {};
  for (const [name, number] of Object.entries(given.measured ?? {})) {
    const [first = '', second] = name.split('.');
    const test = second === undefined ? testGiving(first, item) : (first as TestKey);
    if (!testDefinitions[test]) throw new Error(`there is no test "${test}"`);
    const id = second === undefined ? own.id : 'house';
    const made = measuredValue(test, second ?? first, number, second === undefined ? own.kind : 'house');
    const before = measured[test]?.[id];
    const counts = second !== undefined || given.doesNotCount === undefined;
    measured[test] = {
      ...measured[test],
      [id]: {
        ...made,
        values: { ...before?.values, ...made.values },
        counts,
        whyNot: counts ? null : given.doesNotCount!,
      },
    };
  }
  const subjects = own.kind === 'house' ? [own] : [house, own];
  return { house: { ...plainHouse.house, ...given.house }, subjects, measured };
}

/** The item of a set; throws when there is none. */
export function itemOf(set: RuleSet, key: string): Item {
  const item = set.items.find((each) => each.item === key);
  if (!item) throw new Error(`${set.key} has no item "${key}"`);
  return item;
}
