import type { TestKey } from '@countercheck/measurement';
import type { Item, RuleSet } from '../schema/index.ts';
import type { Facts, Status, SubjectFacts, Value } from '../types.ts';
import { compileCriterion, type Checked, type CompiledCriterion } from './criterion.ts';
import {
  checkAll,
  checkGroup,
  compileGroup,
  partlyEntered,
  type CheckedGroup,
  type CompiledGroup,
} from './group.ts';
import { isGap, type Quantity } from './quantity.ts';
import { takesOf, type TakeData } from './takes.ts';

export interface CompiledItem {
  readonly item: Item;
  readonly appliesAll: readonly CompiledCriterion[];
  readonly appliesAny: readonly CompiledCriterion[];
  readonly exemptions: readonly CompiledGroup[];
  readonly options: readonly CompiledGroup[];
  readonly stopWork: readonly CompiledGroup[];
  /** every quantity the item looks at, once, in the order in which it is named */
  readonly uses: readonly Quantity[];
  /** tests whose readings enter the verdict: its own and those its criteria name */
  readonly readsTests: readonly TestKey[];
}

/**
 * The verdict with its whole trace as data, without words: the options with every comparison and their sources,
 * the inputs, the limits, uncertainty and guard band, and what would change it. `explain` adds the words.
 */
export interface Decision {
  readonly item: CompiledItem;
  readonly subject: SubjectFacts;
  readonly facts: Facts;
  readonly status: Status;
  readonly applies: readonly Checked[];
  readonly exemptions: readonly CheckedGroup[];
  readonly options: readonly CheckedGroup[];
  readonly decidedBy: CheckedGroup | null;
  /** values of the item's `uses`, in their order; null where one is missing or hidden */
  readonly inputs: readonly Value[];
  /** what a failed item takes to be met; empty for any other status */
  readonly takes: readonly TakeData[];
  /** the stop-work thresholds that are reached */
  readonly stopWork: readonly CheckedGroup[];
  /** the house lists no such subject */
  readonly none: boolean;
}

function usesOf(groups: readonly (readonly CompiledCriterion[])[]): Quantity[] {
  const byName = new Map<string, Quantity>();
  for (const criterion of groups.flat())
    for (const quantity of criterion.uses)
      if (!byName.has(quantity.name)) byName.set(quantity.name, quantity);
  return [...byName.values()];
}

/** Compiles one item; throws on what `checkRuleSet` would have reported. */
export function compileItem(item: Item, set: RuleSet): CompiledItem {
  const criteria = (given: Item['appliesWhen']) =>
    (given ?? []).map((each) => compileCriterion(each, item, set));
  const appliesAll = criteria(item.appliesWhen);
  const appliesAny = criteria(item.appliesWhenAny);
  const exemptions = (item.exemptions ?? []).map((each) =>
    compileGroup({ ...each, key: each.exemption, source: each.source ?? item.source }, item, set),
  );
  const options = item.options.map((each) =>
    compileGroup({ ...each, key: each.option, source: each.source ?? item.source }, item, set),
  );
  const stopWork = (item.stopWork ?? []).map((each, i) =>
    compileGroup({ ...each, key: `stop-work-${i + 1}` }, item, set, { counted: false, guarded: false }),
  );
  const groups = [
    ...options.flatMap((each) => [each.when, each.criteria]),
    ...exemptions.map((each) => each.criteria),
  ];
  const uses = usesOf([appliesAll, appliesAny, ...groups]);
  const named = uses.flatMap((each) => (each.test ? [each.test] : []));
  const readsTests = [...new Set([...item.tests, ...named])];
  return { item, appliesAll, appliesAny, exemptions, options, stopWork, uses, readsTests };
}

/** true, false, or null while it cannot be told */
function doesApply(all: readonly Checked[], any: readonly Checked[]): boolean | null {
  let known: boolean | null = true;
  for (const each of all) {
    if (each.holds === false) return false;
    if (each.holds === null) known = null;
  }
  if (any.length === 0 || any.some((each) => each.holds === true)) return known;
  return any.every((each) => each.holds === false) ? false : null;
}

function optionsOf(item: CompiledItem, facts: Facts, subject: SubjectFacts): CheckedGroup[] {
  const options: CheckedGroup[] = [];
  for (const group of item.options) {
    if (group.when.length === 0) {
      options.push(checkGroup(group, facts, subject));
      continue;
    }
    const when = checkAll(group.when, facts, subject);
    if (when.some((each) => each.holds === false)) continue;
    const rest = checkGroup(group, facts, subject);
    const open = when.some((each) => each.holds === null);
    const checked = open ? [...when, ...rest.checked] : rest.checked;
    options.push({ group, checked, verdict: open && rest.verdict === 'holds' ? 'incomplete' : rest.verdict });
  }
  return options;
}

const noTakes: readonly TakeData[] = [];
const noGroups: readonly CheckedGroup[] = [];
const notChecked: readonly Checked[] = [];

function checkGroups(
  groups: readonly CompiledGroup[],
  facts: Facts,
  subject: SubjectFacts,
): readonly CheckedGroup[] {
  if (groups.length === 0) return noGroups;
  const checked: CheckedGroup[] = new Array(groups.length);
  for (let i = 0; i < groups.length; i++) checked[i] = checkGroup(groups[i]!, facts, subject);
  return checked;
}

function holding(groups: readonly CheckedGroup[]): CheckedGroup | null {
  for (const each of groups) if (each.verdict === 'holds') return each;
  return null;
}

/** Whether the way is there in this house hangs on a fact that is not known. */
function mayBeAbsent({ group, checked }: CheckedGroup): boolean {
  return checked.some((each) => each.holds === null && group.when.includes(each.criterion));
}

function statusOf(
  options: readonly CheckedGroup[],
  exemptions: readonly CheckedGroup[],
  facts: Facts,
  subject: SubjectFacts,
): Status {
  if (exemptions.some((each) => each.verdict === 'incomplete' && each.group.keepsOpen)) return 'waiting';
  const failed = options.filter((each) => each.verdict === 'fails');
  if (failed.length === 0) return 'waiting';
  // what fails may be no way in this house at all, and the one that is may still be met
  if (failed.length < options.length && failed.every(mayBeAbsent)) return 'waiting';
  // an untouched alternative does not keep a failed house waiting; one that was begun does
  const begun = options.some(
    (each) => each.verdict === 'incomplete' && partlyEntered(each.group, facts, subject),
  );
  return begun ? 'waiting' : 'fail';
}

/** The facts with newer readings that do not count in place of those that do; null when there are none. */
function withLater(item: CompiledItem, facts: Facts, { id }: SubjectFacts): Facts | null {
  let measured: Facts['measured'] | null = null;
  for (const test of item.item.tests) {
    const later = facts.measured[test]?.[id]?.later;
    if (later)
      measured = { ...(measured ?? facts.measured), [test]: { ...facts.measured[test], [id]: later } };
  }
  return measured && { ...facts, measured };
}

function stopsOf(item: CompiledItem, facts: Facts, subject: SubjectFacts): readonly CheckedGroup[] {
  if (item.stopWork.length === 0) return noGroups;
  const holding = (given: Facts) =>
    checkGroups(item.stopWork, given, subject).filter((stop) => stop.verdict === 'holds');
  const stops = holding(facts);
  const later = withLater(item, facts, subject);
  if (later === null) return stops;
  const known = stops.map(({ group }) => group);
  return [...stops, ...holding(later).filter(({ group }) => !known.includes(group))];
}

function inputsOf(item: CompiledItem, facts: Facts, subject: SubjectFacts): Value[] {
  const { uses } = item;
  const inputs: Value[] = new Array(uses.length);
  for (let i = 0; i < uses.length; i++) {
    const got = uses[i]!.read(facts, subject);
    inputs[i] = isGap(got) ? null : got;
  }
  return inputs;
}

/** Decides one item on one subject. An exemption is looked at first, then each way to pass. */
export function decideItem(item: CompiledItem, facts: Facts, subject: SubjectFacts): Decision {
  const stopWork = stopsOf(item, facts, subject);
  const all = item.appliesAll.length === 0 ? notChecked : checkAll(item.appliesAll, facts, subject);
  const any = item.appliesAny.length === 0 ? notChecked : checkAll(item.appliesAny, facts, subject);
  const applies = any.length === 0 ? all : all.length === 0 ? any : all.concat(any);
  const does = doesApply(all, any);
  let exemptions = noGroups;
  let options = noGroups;
  let decidedBy: CheckedGroup | null = null;
  let status: Status = 'not-applicable';
  if (does !== false) {
    exemptions = checkGroups(item.exemptions, facts, subject);
    options = optionsOf(item, facts, subject);
    status = 'waiting';
  }
  if (does === true) {
    const exempt = holding(exemptions);
    decidedBy = exempt ?? holding(options);
    if (exempt !== null) status = 'exempt';
    else status = decidedBy === null ? statusOf(options, exemptions, facts, subject) : 'pass';
  }
  const inputs = inputsOf(item, facts, subject);
  const takes = status === 'fail' ? takesOf(options, exemptions, facts, subject) : noTakes;
  // one literal, no spreads: this is the hot path of a replay over many houses
  return {
    item,
    subject,
    facts,
    status,
    applies,
    exemptions,
    options,
    decidedBy,
    inputs,
    takes,
    stopWork,
    none: false,
  };
}
