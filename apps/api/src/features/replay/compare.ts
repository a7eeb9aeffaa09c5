import type { ReplayHouse } from '@countercheck/contracts';
import type { ReplayFacts } from '@countercheck/assessment';
import { decide, type CompiledSet, type Decision } from '@countercheck/rules';

export type Change = ReplayHouse['changes'][number];

export interface Compared {
  changes: Change[];
  /** something failed when it was first read */
  reinspectionBefore: boolean;
  reinspectionAfter: boolean;
}

const keyOf = ({ item, subject }: Decision) => `${item.item.item}/${subject.id}`;
const failed = (decisions: readonly Decision[]) => decisions.some(({ status }) => status === 'fail');

function change(decision: Decision, before: Change['before'], after: Change['after']): Change {
  const { item, title } = decision.item.item;
  return { item, title, subjectLabel: decision.subject.label, before, after };
}

function changesBetween(before: readonly Decision[], after: readonly Decision[]): Change[] {
  const was = new Map(before.map((each) => [keyOf(each), each]));
  const changes: Change[] = [];
  for (const is of after) {
    const key = keyOf(is);
    const known = was.get(key);
    was.delete(key);
    if (known?.status !== is.status) changes.push(change(is, known?.status ?? null, is.status));
  }
  for (const gone of was.values()) changes.push(change(gone, gone.status, null));
  return changes;
}

/**
 * One house under the set it was judged by and under another one. Both are decided from the same facts, so
 * that a difference comes from the rules alone. Verdicts are compared as the file stands; whether somebody has
 * to come back shows in what was read first, because what failed then was corrected since.
 */
export function compareHouse(facts: ReplayFacts, own: CompiledSet, other: CompiledSet): Compared {
  const before = decide(own, facts.now);
  const after = decide(other, facts.now);
  const { first } = facts;
  return {
    changes: changesBetween(before, after),
    reinspectionBefore: failed(first ? decide(own, first) : before),
    reinspectionAfter: failed(first ? decide(other, first) : after),
  };
}
