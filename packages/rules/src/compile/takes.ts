import { isNumeric, type Numeric } from '../catalog/entry.ts';
import type { Facts, SubjectFacts } from '../types.ts';
import { highIsNearer, type Checked } from './criterion.ts';
import type { CheckedGroup } from './group.ts';

export type TargetBound = 'at-most' | 'at-least' | 'above' | 'exactly';

/** The reading that would make one criterion hold, in the quantity that is read. */
export interface Target {
  readonly checked: Checked;
  readonly name: string;
  readonly entry: Numeric;
  /** in the entry's stored unit */
  readonly value: number;
  readonly bound: TargetBound;
  /** raw = compared × scale; 1 where the compared quantity is read itself */
  readonly scale: number;
}

/** One way to be met: an option or exemption with what its open and failed criteria need. */
export interface TakeData {
  readonly group: CheckedGroup;
  /** null for a criterion of which no reading can be named */
  readonly targets: readonly (Target | Checked)[];
  readonly exemption: boolean;
}

type Aim = Pick<Target, 'value' | 'bound'>;

/** Where the value has to be, with the guard band that its uncertainty asks for at that place. */
export function aimOf({ value, low, high, guard, criterion }: Checked): Aim | null {
  const { source } = criterion;
  if (source.check === 'is')
    return typeof source.value === 'number' ? { value: source.value, bound: 'exactly' } : null;
  if (typeof value !== 'number' || (low === null && high === null)) return null;
  const room = guard ?? 0;
  if (low !== null && high !== null && low + room > high - room) return null;
  if (source.check === 'above') return { value: low!, bound: 'above' };
  // an instrument's uncertainty never grows towards smaller readings, so this one is enough
  if (highIsNearer(value, low, high))
    return high! - room >= 0 || high! < 0 ? { value: high! - room, bound: 'at-most' } : null;
  // towards larger readings it grows with the reading at most
  const share = value > 0 ? room / value : 0;
  if (share >= 1) return null;
  return { value: value > 0 ? low! / (1 - share) : low! + room, bound: 'at-least' };
}

/** The same for a criterion that nothing has been read for; no guard band, since no uncertainty is known. */
function aimAhead({ criterion }: Checked, facts: Facts, subject: SubjectFacts): Aim | null {
  const { source, low, high, base } = criterion;
  if (source.check === 'balanced-within') return null;
  const ofBase = base?.read(facts, subject) ?? null;
  const factor = base === null ? 1 : typeof ofBase === 'number' ? Math.abs(ofBase) / 100 : null;
  if (factor === null) return null;
  const least = low?.read(facts, subject);
  if (typeof least === 'number')
    return { value: least * factor, bound: source.check === 'above' ? 'above' : 'at-least' };
  const most = high?.read(facts, subject);
  return typeof most === 'number' ? { value: most * factor, bound: 'at-most' } : null;
}

function targetOf(checked: Checked, facts: Facts, subject: SubjectFacts): Target | Checked {
  const { entry, name, test, raw } = checked.criterion.quantity;
  const ahead = checked.holds === null && checked.value === null;
  const aim = ahead ? aimAhead(checked, facts, subject) : aimOf(checked);
  if (aim === null || test === null || !isNumeric(entry)) return checked;
  const { value, bound } = aim;
  const scale = raw === null ? null : raw.scale(facts, subject);
  if (raw === null || scale === null) return { checked, name, entry, value, bound, scale: 1 };
  return { checked, name: raw.name, entry: raw.entry, value: value * scale, bound, scale };
}

/** True for a target, false for a criterion of which no reading can be named. */
export function isTarget(given: Target | Checked): given is Target {
  return 'bound' in given;
}

/** How far the worst reading of a way is from where it has to be, as a share; Infinity when it cannot be told. */
function distance({ targets }: TakeData): number {
  let worst = 0;
  for (const each of targets) {
    if (!isTarget(each)) return Infinity;
    const now = (each.checked.value as number) * each.scale;
    worst = Math.max(worst, Math.abs(each.value - now) / (Math.abs(each.value) || 1));
  }
  return worst;
}

/** The targets of criteria in one state; null when one of them hangs on more than readings. */
function targetsOf(
  { checked }: CheckedGroup,
  holds: false | null,
  facts: Facts,
  subject: SubjectFacts,
): (Target | Checked)[] | null {
  const targets: (Target | Checked)[] = [];
  for (const each of checked) {
    if (each.holds !== holds) continue;
    // a way that is closed by more than readings is none that a correction opens
    if (holds === false && each.criterion.quantity.test === null) return null;
    targets.push(targetOf(each, facts, subject));
  }
  return targets;
}

/**
 * What a failed item takes to be met, without words: options that failed, the nearest first; then options that
 * nobody has begun; then exemptions that readings would open.
 */
export function takesOf(
  options: readonly CheckedGroup[],
  exemptions: readonly CheckedGroup[],
  facts: Facts,
  subject: SubjectFacts,
): TakeData[] {
  const takes: TakeData[] = [];
  for (const group of options) {
    if (group.verdict !== 'fails') continue;
    const targets = targetsOf(group, false, facts, subject);
    if (targets !== null) takes.push({ group, exemption: false, targets });
  }
  if (takes.length > 1) takes.sort((a, b) => distance(a) - distance(b));
  for (const group of options)
    if (group.verdict === 'incomplete')
      takes.push({ group, exemption: false, targets: targetsOf(group, null, facts, subject)! });
  for (const group of exemptions) {
    if (group.verdict !== 'fails') continue;
    const targets = targetsOf(group, false, facts, subject);
    if (targets !== null) takes.push({ group, exemption: true, targets });
  }
  return takes;
}
