import { compileRuleSet } from '../evaluate.ts';
import type { Criterion, Item, Limit, RuleSet } from '../schema/index.ts';
import type { Comparison, DecisionRule, Facts, ItemVerdict, Source } from '../types.ts';
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

export type Given = Case['given'];

export const cfm = (value: number): Limit => ({ kind: 'constant', value, unit: 'cfm' });
export const percent = (value: number): Limit => ({ kind: 'constant', value, unit: '%' });
export const pascals = (value: number): Limit => ({ kind: 'constant', value, unit: 'Pa' });

/** The only way to pass: all of these criteria. */
export const way = (...require: Criterion[]): Item['options'] => [
  { option: 'way', title: 'One way', require },
];

export const ducts = (...require: Criterion[]) =>
  madeItem('duct-leakage-total', { options: way(...require) });
export const fan = (...require: Criterion[]) =>
  madeItem('whole-house-ventilation', { options: way(...require) });
export const room = (...require: Criterion[]) =>
  madeItem('bedroom-pressure-relief', { options: way(...require) });
export const statics = (...require: Criterion[]) => madeItem('supply-static', { options: way(...require) });

export const leak = 'measured.leakageAt25';
export const band: DecisionRule = { rule: 'guard-band', factor: 1 };

/** The first comparison of the first way to pass. */
export const first = (verdict: ItemVerdict): Comparison => verdict.trace.options[0]!.comparisons[0]!;
