import type { QuantityKind, UnitSystem } from '@countercheck/measurement';
import { isNumeric } from '../catalog/entry.ts';
import type { Checked } from '../compile/criterion.ts';
import type { CheckedGroup } from '../compile/group.ts';
import type { Decision } from '../compile/item.ts';
import type { Comparison } from '../types.ts';
import { gapWords } from './gap.ts';
import { neededWords } from './comparison.ts';
import { sayExact, withUnit } from './numbers.ts';
import { gapsOf, missingWords, sentence } from './reason.ts';

type Ahead = NonNullable<Comparison['ahead']>;

function needed(checked: Checked): string | null {
  const { entry } = checked.criterion.quantity;
  const words = neededWords(checked);
  return words === null ? null : `${entry.label}: ${words}`;
}

/** What a group that fails would need; empty when it hangs on more than readings. */
function repair(group: CheckedGroup): string[] {
  const failed = group.checked.filter((each) => each.holds === false);
  if (failed.some((each) => each.criterion.quantity.test === null)) return [];
  return failed.flatMap((each) => needed(each) ?? []);
}

/** The limits of a criterion that has no value yet; null on the side that is open or hangs on a base. */
export function aheadOf({ criterion }: Checked, { facts, subject }: Decision): Ahead {
  const number = (limit: typeof criterion.low) => {
    const read = criterion.base === null ? limit?.read(facts, subject) : null;
    return typeof read === 'number' ? read : null;
  };
  return { low: number(criterion.low), high: number(criterion.high) };
}

/** What is to be measured with the limit that it will meet, e.g. "free area, at least 100 in²". */
export function aheadWords(
  label: string,
  kind: QuantityKind,
  { low, high }: Ahead,
  system: UnitSystem,
): string {
  const say = (bound: number) => withUnit(sayExact(bound, kind, system), kind, system);
  if (low !== null) return `${label}, at least ${say(low)}`;
  return high === null ? label : `${label}, at most ${say(high)}`;
}

/** What an option that nobody has begun would need, e.g. "free area of …: at least 120 in²". */
function alternative(group: CheckedGroup, decision: Decision): string {
  const open = group.checked.filter((each) => each.holds !== true);
  const targets = open.map((each) => {
    const { entry } = each.criterion.quantity;
    return isNumeric(entry)
      ? aheadWords(entry.label, entry.kind, aheadOf(each, decision), 'us')
      : entry.label;
  });
  return `${group.group.title}: measure ${targets.join(' and ')}`;
}

function leaves(checked: Checked): string[] {
  const { entry, test } = checked.criterion.quantity;
  if (test === null || !isNumeric(entry)) return [];
  const { kind, label } = entry;
  const say = (bound: number) => withUnit(sayExact(bound, kind), kind);
  const room = checked.guard ?? 0;
  const above = checked.high === null ? [] : [`${label} above ${say(checked.high - room)}`];
  return checked.low === null ? above : [...above, `${label} below ${say(checked.low + room)}`];
}

function waiting(decision: Decision): string[] {
  const { applies, exemptions, options } = decision;
  const open = applies.filter((each) => each.holds === null);
  if (open.length > 0) return missingWords(open, decision);
  const groups = [...exemptions, ...options].filter((each) => each.verdict === 'incomplete');
  return [...new Set(groups.flatMap((each) => gapsOf(each.checked, decision).map(gapWords)))];
}

/** What would change the verdict, one sentence each; empty when nothing that can be measured would. */
export function changeWords(decision: Decision): string[] {
  const { status, decidedBy, options, exemptions, none } = decision;
  if (none || status === 'not-applicable') return [];
  if (status === 'waiting') return waiting(decision).map(sentence);
  if (status === 'fail') {
    const repairs = options
      .filter((each) => each.verdict === 'fails')
      .map((each) => repair(each).join(' and '));
    const others = options
      .filter((each) => each.verdict === 'incomplete')
      .map((each) => alternative(each, decision));
    const exempt = exemptions.map((each) => repair(each).join(' and ')).filter((words) => words !== '');
    return [
      ...repairs.filter((words) => words !== ''),
      ...others,
      ...exempt.map((words) => `exempt with ${words}`),
    ].map(sentence);
  }
  const verb = status === 'exempt' ? 'the exemption ends with' : 'fails with';
  return decidedBy!.checked.flatMap(leaves).map((words) => sentence(`${verb} ${words}`));
}
