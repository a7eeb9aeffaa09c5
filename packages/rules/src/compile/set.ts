import type { SubjectKind } from '@countercheck/measurement';
import type { RuleSet } from '../schema/index.ts';
import type { Facts, SubjectFacts } from '../types.ts';
import { compileItem, decideItem, type CompiledItem, type Decision } from './item.ts';

/** A rule set ready to decide houses; compile it once. */
export interface CompiledSet {
  readonly key: string;
  readonly version: string;
  readonly items: readonly CompiledItem[];
  /** by item, the other items whose readings enter its verdict */
  readonly dependsOn: ReadonlyMap<string, readonly string[]>;
}

const houseItself: SubjectFacts = {
  id: 'house',
  kind: 'house',
  label: 'House',
  facts: {},
  reported: {},
  reportedHidden: false,
};

/**
 * True when readings that belong to `other` enter the verdict of `asking`. A test that both list belongs to
 * the one that lists fewer: the ventilator's own ducts enter the total, the total does not enter theirs. No item
 * rests on itself.
 */
function restsOn(asking: CompiledItem, other: CompiledItem): boolean {
  const [mine, theirs] = [asking.item.tests, other.item.tests];
  return asking.readsTests.some(
    (test) => theirs.includes(test) && (!mine.includes(test) || theirs.length < mine.length),
  );
}

/** Compiles a rule set. Throws on what `checkRuleSet` would have reported. */
export function compileDecisions(set: RuleSet): CompiledSet {
  const items = set.items.map((item) => compileItem(item, set));
  const dependsOn = new Map(
    items.map((asking) => [
      asking.item.item,
      items.filter((other) => restsOn(asking, other)).map((other) => other.item.item),
    ]),
  );
  return { key: set.key, version: set.version, items, dependsOn };
}

function decideNone(item: CompiledItem, facts: Facts): Decision[] {
  const { whenNone } = item.item;
  if (!whenNone) return [];
  const subject = facts.subjects.find((each) => each.kind === 'house') ?? houseItself;
  const nothing = {
    applies: [],
    exemptions: [],
    options: [],
    inputs: [],
    takes: [],
    decidedBy: null,
    stopWork: [],
  };
  return [{ item, subject, facts, status: whenNone.status, ...nothing, none: true }];
}

function subjectsByKind({ subjects }: Facts): Partial<Record<SubjectKind, SubjectFacts[]>> {
  const byKind: Partial<Record<SubjectKind, SubjectFacts[]>> = {};
  for (const subject of subjects) (byKind[subject.kind] ??= []).push(subject);
  return byKind;
}

/**
 * Decides every item on each of its subjects, without making words: items in the order of the set, subjects
 * in the order of the facts. Pure; one result never depends on another.
 */
export function decide(set: CompiledSet, facts: Facts): Decision[] {
  const decisions: Decision[] = [];
  const byKind = subjectsByKind(facts);
  for (const item of set.items) {
    const subjects = byKind[item.item.subject];
    if (subjects === undefined) decisions.push(...decideNone(item, facts));
    else for (const subject of subjects) decisions.push(decideItem(item, facts, subject));
  }
  return decisions;
}
