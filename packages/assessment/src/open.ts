import { testOutlines, type TestKey } from '@countercheck/measurement';
import type { ItemVerdict, Scorecard } from '@countercheck/rules';
import { measureReadings } from './measure.ts';
import { subjectsOf, ventilatorHasDucts, type Subject } from './subjects.ts';
import type { HouseFile } from './types.ts';

/** A test that still has to be done on a subject. */
export interface OpenTest {
  test: TestKey;
  subjectId: string;
  subjectLabel: string;
  /** the waiting items that it serves */
  items: string[];
  /** an item it serves is a safety item */
  safety: boolean;
}

const ductTests: readonly TestKey[] = ['duct-leakage-rough', 'duct-leakage-total', 'duct-leakage-outdoors'];

/** The subjects that a test of a verdict is done on: a sum over systems is tested system by system. */
export function subjectsFor(test: TestKey, verdict: ItemVerdict, file: HouseFile): Subject[] {
  const wanted = testOutlines[test].subject;
  const all = subjectsOf(file).filter((each) => each.kind === wanted);
  if (wanted === verdict.subjectKind) return all.filter((each) => each.id === verdict.subjectId);
  if (test === 'ventilator-duct-leakage') return ventilatorHasDucts(file) ? all : [];
  const ducted = file.systems.filter((each) => each.hasDucts).map((each) => each.id);
  return ductTests.includes(test) ? all.filter((each) => ducted.includes(each.id)) : all;
}

/**
 * The tests that waiting items still need, each once per subject, in the order of the scorecard. A test is
 * open until it has a reading that counts. Of an item that can be met in two ways both tests are listed.
 */
export function testsOpen(scorecard: Scorecard, file: HouseFile): OpenTest[] {
  const done = new Set(
    measureReadings(file).flatMap((each) => (each.counts ? [`${each.test}/${each.subjectId}`] : [])),
  );
  const open = new Map<string, OpenTest>();
  for (const verdict of scorecard.verdicts) {
    if (verdict.status !== 'waiting') continue;
    for (const test of verdict.tests)
      for (const { id, label } of subjectsFor(test, verdict, file)) {
        const key = `${test}/${id}`;
        if (done.has(key)) continue;
        const known = open.get(key) ?? { test, subjectId: id, subjectLabel: label, items: [], safety: false };
        const items = known.items.includes(verdict.item) ? known.items : [...known.items, verdict.item];
        open.set(key, { ...known, items, safety: known.safety || verdict.safety });
      }
  }
  return [...open.values()];
}

/**
 * The open tests in an order that may spare some of them: safety first, then each test after those whose
 * result may exempt its item. Common practice, no published source.
 */
export function proposedOrder(scorecard: Scorecard, file: HouseFile): OpenTest[] {
  const dependsOn = new Map(scorecard.verdicts.map((each) => [each.item, each.dependsOn]));
  const depth = (item: string, seen: readonly string[] = []): number =>
    seen.includes(item)
      ? 0
      : Math.max(0, ...(dependsOn.get(item) ?? []).map((other) => 1 + depth(other, [...seen, item])));
  const rank = (each: OpenTest) => (each.safety ? -1 : Math.min(...each.items.map((item) => depth(item))));
  return testsOpen(scorecard, file)
    .map((each, place) => ({ each, place }))
    .sort((a, b) => rank(a.each) - rank(b.each) || a.place - b.place)
    .map(({ each }) => each);
}
