import type { Criterion, Item, RuleSet } from '../schema/index.ts';
import type { Facts, Source, SubjectFacts } from '../types.ts';
import { compileCriterion, type Checked, type CompiledCriterion, type Reading } from './criterion.ts';

/** Criteria that must hold together: an option, an exemption, a stop-work threshold. */
export interface CompiledGroup {
  readonly key: string;
  readonly title: string;
  readonly source: Source;
  readonly when: readonly CompiledCriterion[];
  readonly criteria: readonly CompiledCriterion[];
  /** while it is incomplete, a failed item waits for it */
  readonly keepsOpen: boolean;
}

/** A group on one subject. `incomplete` means that it may still hold. */
export interface CheckedGroup {
  readonly group: CompiledGroup;
  readonly checked: readonly Checked[];
  readonly verdict: 'holds' | 'fails' | 'incomplete';
}

interface GroupSource {
  key: string;
  title: string;
  source: Source;
  when?: readonly Criterion[] | undefined;
  require: readonly Criterion[];
  keepsOpen?: boolean | undefined;
}

/** An option or an exemption admits a house: near the limit the decision rule has its say. */
const admitting: Reading = { counted: true, guarded: true };

/** Compiles the criteria of an option, exemption or threshold. */
export function compileGroup(
  given: GroupSource,
  item: Item,
  set: RuleSet,
  reading: Reading = admitting,
): CompiledGroup {
  const compile = (criterion: Criterion) => compileCriterion(criterion, item, set, reading);
  return {
    key: given.key,
    title: given.title,
    source: given.source,
    when: (given.when ?? []).map((each) => compileCriterion(each, item, set)),
    criteria: given.require.map(compile),
    keepsOpen: given.keepsOpen ?? true,
  };
}

/** Checks every criterion, also after one has failed: the trace shows them all. */
export function checkAll(
  criteria: readonly CompiledCriterion[],
  facts: Facts,
  subject: SubjectFacts,
): Checked[] {
  const checked: Checked[] = new Array(criteria.length);
  for (let i = 0; i < criteria.length; i++) checked[i] = criteria[i]!.check(facts, subject);
  return checked;
}

/** All hold, one fails, or neither is known yet. */
function verdictOf(checked: readonly Checked[]): CheckedGroup['verdict'] {
  let verdict: CheckedGroup['verdict'] = 'holds';
  for (const each of checked) {
    if (each.holds === false) return 'fails';
    if (each.holds === null) verdict = 'incomplete';
  }
  return verdict;
}

/** Checks a group on one subject. */
export function checkGroup(group: CompiledGroup, facts: Facts, subject: SubjectFacts): CheckedGroup {
  const checked = checkAll(group.criteria, facts, subject);
  return { group, checked, verdict: verdictOf(checked) };
}

/** True when a reading that the group looks at has been entered, whether or not it counts. */
export function partlyEntered(group: CompiledGroup, facts: Facts, subject: SubjectFacts): boolean {
  return group.criteria.some((criterion) => criterion.uses.some((each) => each.entered(facts, subject)));
}
