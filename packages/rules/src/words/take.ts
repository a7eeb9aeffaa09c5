import { quantities, type QuantityKind, type UnitSystem } from '@countercheck/measurement';
import type { Checked } from '../compile/criterion.ts';
import type { Decision } from '../compile/item.ts';
import { isTarget, type TakeData, type Target } from '../compile/takes.ts';
import type { Take } from '../types.ts';
import { sayApart, saySafe, withUnit } from './numbers.ts';
import { sentence } from './reason.ts';

type Reading = NonNullable<Take['reading']>;

const bounds: Record<Target['bound'], string> = {
  'at-most': 'at most ',
  'at-least': 'at least ',
  above: 'more than ',
  exactly: '',
};

/** A target in a unit system, e.g. "total leakage: at most 93.5 cfm, 6.5 cfm less than now". */
export function targetWords(
  { label, value, bound }: Pick<Reading, 'label' | 'value' | 'bound'>,
  kind: QuantityKind,
  now: number | null,
  system: UnitSystem = 'us',
): string {
  const said = withUnit(saySafe(value, kind, bound, system), kind, system);
  const start = `${label}: ${bounds[bound]}${said}`;
  if (now === null || bound === 'exactly') return start;
  const change = now - value;
  // rounded away from zero, so that the change is enough
  const by = withUnit(sayApart(Math.abs(change), kind, system), kind, system);
  return `${start}, ${by} ${change > 0 ? 'less' : 'more'} than now`;
}

const nowOf = ({ checked, scale }: Target) =>
  typeof checked.value === 'number' ? checked.value * scale : null;

function wordsOf(target: Target | Checked): string {
  if (!isTarget(target)) return target.criterion.quantity.entry.label;
  const { entry, value, bound } = target;
  return targetWords({ label: entry.label, value, bound }, entry.kind, nowOf(target));
}

function leadOf({ group, exemption }: TakeData, nearest: boolean): string {
  if (exemption) return `Exempt – ${group.group.title} – with `;
  if (nearest) return '';
  return `Or – ${group.group.title} – ${group.verdict === 'incomplete' ? 'measure ' : 'with '}`;
}

/**
 * What a failed item takes to be met, nearest way first, one entry for each reading. Shown figures are rounded
 * towards passing: a reading that shows the number passes.
 */
export function takeWords({ takes }: Decision): Take[] {
  return takes.flatMap((way, place) => {
    const nearest = place === 0 && !way.exemption && way.group.verdict === 'fails';
    const lead = leadOf(way, nearest);
    const nextOption = nearest ? null : way.group.group.key;
    return way.targets.map((target): Take => {
      const words = sentence(`${lead}${wordsOf(target)}`);
      if (!isTarget(target)) return { reading: null, nextOption, words };
      const { name, entry, value, bound } = target;
      const { unit } = quantities[entry.kind];
      const now = nowOf(target);
      return { reading: { name, label: entry.label, value, unit, bound, now }, nextOption, words };
    });
  });
}
