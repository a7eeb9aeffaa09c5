import { compileRuleSet } from '../evaluate.ts';
import type { Item, RuleSet } from '../schema/index.ts';
import type { DecisionRule, Facts, ItemVerdict, Source } from '../types.ts';
import { factsOf, itemOf, type Case } from './cases.ts';
import { commonPractice } from './sets.ts';

export const confirmed: Source = { kind: 'published', citation: 'a text that was seen', confirmed: true };
export const unconfirmed: Source = { kind: 'from-memory', citation: 'from memory', confirmed: false };

/** An item that says only what a test asks about; the rest is that of an item without limits or exemptions. */
export function madeItem(base: string, parts: Partial<Item>): Item {
  const { item, title, stage, subject, tests, correction, trade } = itemOf(commonPractice, base);
  return {
    item,
    title,
    stage,
    subject,
    tests,
    options: [],
    source: unconfirmed,
    correction,
    trade,
    cautions: [],
    safety: false,
    ...parts,
  };
}

/** A set of a few items under the header of the common-practice set. */
export const setOf = (...items: Item[]): RuleSet => ({ ...commonPractice, items });

/** Facts of a case, every measured value with a standard uncertainty where one is given. */
export function madeFacts(item: Item, given: Case['given'], u?: number, decision?: DecisionRule): Facts {
  const facts = factsOf({ case: '', given, expect: { status: 'pass' } }, item);
  const spread = u === undefined ? {} : { standardUncertainty: u, expandedUncertainty: 2 * u };
  for (const bySubject of Object.values(facts.measured))
    for (const measured of Object.values(bySubject))
      for (const [key, value] of Object.entries(measured.values))
        measured.values[key] = { ...value, ...spread };
  return { ...facts, decision };
}

/** The verdict of one item, alone in its set or beside others. */
export function judged(
  item: Item,
  given: Case['given'],
  more: { u?: number; decision?: DecisionRule; others?: readonly Item[] } = {},
): ItemVerdict {
  const facts = madeFacts(item, given, more.u, more.decision);
  return compileRuleSet(setOf(item, ...(more.others ?? [])))(facts).verdicts[0]!;
}
