import { quantities, type QuantityKind, type UnitSystem } from '@countercheck/measurement';
import type { Checked } from '../compile/criterion.ts';
import type { Decision } from '../compile/item.ts';
import type { Agreement } from '../types.ts';
import { combine } from '../uncertainty/spread.ts';
import { apartIn, sayNumber, withUnit } from './numbers.ts';

/**
 * Whether rater and installer can both be right: they agree when |rater − installer| is at most the expanded
 * uncertainty of the difference, U² = U(rater)² + U(installer)² (the E_n score at most 1, ISO 13528, from
 * memory). Signs do not matter where the criterion says so. Null where the base is no reported figure or one of
 * the uncertainties is not known; a hidden figure gives none.
 */
export function agreementOf(checked: Checked, decision: Decision, quantity: QuantityKind): Agreement | null {
  const { criterion, value, base } = checked;
  if (criterion.base?.entry.from !== 'reported' || base === null || typeof value !== 'number') return null;
  const { facts, subject } = decision;
  const own = criterion.quantity.spread(facts, subject, value);
  const spread = combine(own, criterion.base.spread(facts, subject, base), 1);
  if (spread === null) return null;
  const difference = value - base;
  const apart = Math.abs(difference);
  const verdict = apart <= spread.expanded ? 'agrees' : 'differs';
  const told = { verdict, difference, expandedUncertainty: spread.expanded } as const;
  return { ...told, words: agreementWords(told, quantity, 'us') };
}

/** An agreement in a unit system. */
export function agreementWords(
  { verdict, difference, expandedUncertainty }: Omit<Agreement, 'words'>,
  quantity: QuantityKind,
  system: UnitSystem,
): string {
  const apart = apartIn(Math.abs(difference), quantity, system);
  const { decimals } = quantities[quantity][system];
  const gap = withUnit(sayNumber(apart, decimals + 2), quantity, system);
  const room = sayNumber(apartIn(expandedUncertainty, quantity, system), 4);
  return verdict === 'agrees'
    ? `agrees with the reported figure: ${gap} apart, within the ${room} that both uncertainties allow`
    : `differs from the reported figure by ${gap}, more than the ${room} that both uncertainties allow`;
}
