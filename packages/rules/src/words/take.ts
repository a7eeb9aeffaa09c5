import { quantities } from '@countercheck/measurement';
import type { Checked } from '../compile/criterion.ts';
import type { Decision } from '../compile/item.ts';
import { isTarget, type TakeData, type Target } from '../compile/takes.ts';
import type { Take } from '../types.ts';
import { saySafe, withUnit } from './numbers.ts';
import { sentence } from './reason.ts';

const bounds: Record<Target['bound'], string> = {
  'at-most': 'at most ',
  'at-least': 'at least ',
  above: 'more than ',
  exactly: '',
};

function targetWords({ checked, entry, value, bound, scale }: Target): string {
  const say = (amount: number, side: Target['bound']) =>
    withUnit(saySafe(amount, entry.kind, side), entry.kind);
  const start = `${entry.label}: ${bounds[bound]}${say(value, bound)}`;
  if (typeof checked.value !== 'number' || bound === 'exactly') return start;
  const change = checked.value * scale - value;
  // rounded away from zero, so that the change is enough
  return `${start}, ${say(Math.abs(change), 'at-least')} ${change > 0 ? 'less' : 'more'} than now`;
}

function wordsOf(target: Target | Checked): string {
  return isTarget(target) ? targetWords(target) : target.criterion.quantity.entry.label;
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
      return { reading: { name, label: entry.label, value, unit, bound }, nextOption, words };
    });
  });
}
