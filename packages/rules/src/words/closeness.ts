import { chanceBeyond } from '@countercheck/measurement';
import { highIsNearer, type Checked } from '../compile/criterion.ts';
import type { Decision } from '../compile/item.ts';
import { sayNumber } from './numbers.ts';

/** Distance from the nearer bound, zero or more on the side that is met; null when nothing was compared. */
export function marginOf({ value, low, high }: Pick<Checked, 'value' | 'low' | 'high'>): number | null {
  if (typeof value !== 'number' || (low === null && high === null)) return null;
  return highIsNearer(value, low, high) ? high! - value : value - low!;
}

/** True when the value is nearer to its limit, on either side of it, than its expanded uncertainty. */
export function isClose(checked: Checked): boolean {
  const margin = marginOf(checked);
  return margin !== null && checked.spread !== null && Math.abs(margin) < checked.spread.expanded;
}

/**
 * The chance, 0 to 1, that the true value lies outside the limit, for a normal distribution about the reading
 * (`chanceBeyond`, JCGM 106). Null when nothing was compared or the uncertainty is not known.
 */
export function chanceOutside({ value, low, high, spread, criterion }: Checked): number | null {
  if (typeof value !== 'number' || spread === null || (low === null && high === null)) return null;
  // without its sign, a reading is outside on both sides of zero
  const unsigned = 'magnitude' in criterion.source && criterion.source.magnitude === true;
  const least = unsigned && low === null && high !== null && high > 0 ? -high : low;
  const chances = chanceBeyond({ value, standardUncertainty: spread.standard, low: least, high });
  return chances.ok ? chances.value.beyond : null;
}

/** A chance as people say it: whole percents, never "0 %" or "100 %" of what can happen. */
function sayChance(chance: number): string {
  if (chance < 0.01) return 'less than 1 %';
  if (chance > 0.99) return 'more than 99 %';
  return `${sayNumber(chance * 100, 0)} %`;
}

function side({ low, high }: Checked): string {
  if (low !== null && high !== null) return 'outside';
  return high !== null ? 'above' : 'below';
}

/**
 * For a pass or an exemption that rests on a reading close to its limit: "Passes, but close to the limit: 7 %
 * chance that the true value is above." Null for any other verdict.
 */
export function closeWords({ status, decidedBy }: Decision): string | null {
  if (decidedBy === null || (status !== 'pass' && status !== 'exempt')) return null;
  let closest: { chance: number; checked: Checked } | null = null;
  for (const checked of decidedBy.checked) {
    const chance = isClose(checked) ? chanceOutside(checked) : null;
    if (chance !== null && (closest === null || chance > closest.chance)) closest = { chance, checked };
  }
  if (closest === null) return null;
  const verb = status === 'pass' ? 'Passes' : 'Exempt';
  return `${verb}, but close to the limit: ${sayChance(closest.chance)} chance that the true value is ${side(closest.checked)}.`;
}
