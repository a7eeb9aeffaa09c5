import { quantities, type QuantityKind } from '@countercheck/measurement';
import { isNumeric } from '../catalog/entry.ts';
import type { Checked } from '../compile/criterion.ts';
import type { CompiledLimit } from '../compile/limit.ts';
import type { Decision } from '../compile/item.ts';
import { aimOf } from '../compile/takes.ts';
import type { Comparison } from '../types.ts';
import { agreementOf } from './agreement.ts';
import { chanceOutside, isClose, marginOf } from './closeness.ts';
import { gapWords } from './gap.ts';
import { sayBeside, sayExact, sayNumber, saySafe, withUnit } from './numbers.ts';

const against: Record<string, string> = {
  reported: 'reported',
  house: 'designed',
  subject: 'designed',
  measured: 'measured',
};

function quantityOf({ criterion }: Checked): QuantityKind {
  const { entry } = criterion.quantity;
  return isNumeric(entry) ? entry.kind : 'count';
}

/** How a limit comes about where it is not a plain number, e.g. " (6 cfm per 100 ft² of floor)". */
function originOf(limit: CompiledLimit | null): string {
  if (limit?.limit.kind === 'per-area')
    return ` (${sayNumber(limit.limit.value, 4)} cfm per 100 ft² of conditioned floor)`;
  if (limit?.limit.kind === 'by-zone') return ' in this climate zone';
  return '';
}

function shareWords(checked: Checked, quantity: QuantityKind): string {
  const { criterion, value, base, low, high } = checked;
  const share = ((value as number) / base!) * 100;
  const top = (high! / base!) * 100;
  const bottom = low === null ? null : (low / base!) * 100;
  const said = sayBeside(share, 'share', [top, bottom]);
  const word = against[criterion.base!.entry.from];
  const start = `${withUnit(sayBeside(value as number, quantity, [low, high]), quantity)} is ${said} % of the ${word} ${sayExact(base!, quantity)}`;
  const limit =
    bottom === null
      ? `limit ${sayNumber(top, 2)} %`
      : `must be ${sayNumber(bottom, 2)} to ${sayNumber(top, 2)} %`;
  return `${start}; ${limit}`;
}

function balanceWords({ criterion, value, base, low, high }: Checked, quantity: QuantityKind): string {
  const sides = [value as number, base!];
  const [small, large] = [Math.min(...sides), Math.max(...sides)];
  const apart =
    small > 0
      ? `${sayBeside((large / small - 1) * 100, 'share', [(high! / base! - 1) * 100])} % apart`
      : 'one of them is 0';
  const limit = base === 0 ? '' : `; limit ${sayNumber((high! / base! - 1) * 100, 2)} %`;
  const shown = withUnit(
    `${sayBeside(value as number, quantity, [low, high])} and ${sayExact(base!, quantity)}`,
    quantity,
  );
  return `${criterion.quantity.entry.label} and ${criterion.base!.entry.label} are ${shown}, ${apart}${limit}`;
}

function boundWords({ criterion, value, low, high }: Checked, quantity: QuantityKind): string {
  const said = withUnit(sayBeside(value as number, quantity, [low, high]), quantity);
  const limit = (bound: number) => withUnit(sayExact(bound, quantity), quantity);
  if (low !== null && high !== null) return `${said}; must be ${sayExact(low, quantity)} to ${limit(high)}`;
  if (low !== null) return `${said}; at least ${limit(low)}${originOf(criterion.low)} needed`;
  return `${said}; limit ${limit(high!)}${originOf(criterion.high)}`;
}

function plainWords({ criterion, value }: Checked): string {
  const { label } = criterion.quantity.entry;
  if (criterion.source.check === 'recorded') return `${label} is recorded`;
  if (typeof value === 'boolean') return `${label}: ${value ? 'yes' : 'no'}`;
  return `${label}: ${typeof value === 'string' ? value.replaceAll('-', ' ') : String(value)}`;
}

/** Within its limit and yet refused: the guard band says so. */
function guardWords(checked: Checked, quantity: QuantityKind): string {
  const { holds, guard } = checked;
  const margin = marginOf(checked);
  if (holds !== false || guard === null || margin === null || margin < 0) return '';
  const band = withUnit(saySafe(guard, quantity, 'at-least'), quantity);
  const aim = aimOf(checked);
  const accepted =
    aim === null
      ? ''
      : `: ${aim.bound === 'at-most' ? 'at most' : 'at least'} ${withUnit(saySafe(aim.value, quantity, aim.bound), quantity)} is accepted`;
  return `; within the limit, but not by the guard band of ${band}${accepted}`;
}

function comparedWords(checked: Checked, quantity: QuantityKind): string {
  if (checked.criterion.source.check === 'balanced-within') return balanceWords(checked, quantity);
  return checked.base !== null && checked.base !== 0
    ? shareWords(checked, quantity)
    : boundWords(checked, quantity);
}

/** A criterion's outcome as one sentence part, e.g. "0.092 in. w.c. is 108 % of the reported 0.085; limit 110 %". */
export function comparisonWords(checked: Checked): string {
  const { gap } = checked;
  if (gap) return gapWords(gap);
  if (checked.low === null && checked.high === null) return plainWords(checked);
  const quantity = quantityOf(checked);
  return comparedWords(checked, quantity) + guardWords(checked, quantity);
}

/** The reading that would just do, e.g. "at most 0.0935 in. w.c."; null when there is no number to name. */
export function neededWords(checked: Checked, quantity: QuantityKind): string | null {
  const { low, high, base, criterion, gap, guard } = checked;
  if (gap) return null;
  if (guard !== null && guard > 0) {
    const aim = aimOf(checked);
    if (aim === null) return null;
    return `${aim.bound === 'at-most' ? 'at most' : 'at least'} ${withUnit(saySafe(aim.value, quantity, aim.bound), quantity)}`;
  }
  // either side may be the wrong one, so no figure is named for this one alone
  if (criterion.source.check === 'balanced-within')
    return base
      ? `within ${sayNumber((high! / base - 1) * 100, 2)} % of the ${criterion.base!.entry.label}`
      : null;
  const say = (bound: number) => withUnit(sayExact(bound, quantity), quantity);
  if (low !== null && high !== null) return `${sayExact(low, quantity)} to ${say(high)}`;
  if (high !== null) return `at most ${say(high)}`;
  if (low !== null) return `at least ${say(low)}`;
  const { source } = criterion;
  if (source.check === 'is')
    return source.value === true ? 'yes' : source.value === false ? 'no' : String(source.value);
  return source.check === 'one-of' ? source.values.join(' or ') : null;
}

/** The comparison with its words, as it stands in a trace. */
export function toComparison(checked: Checked, decision: Decision): Comparison {
  const quantity = quantityOf(checked);
  const { criterion, value, low, high, holds } = checked;
  const number = typeof value === 'number' ? value : typeof value === 'boolean' ? Number(value) : null;
  return {
    name: criterion.quantity.name,
    label: criterion.quantity.entry.label,
    quantity,
    value: number,
    unit: quantities[quantity].unit,
    low,
    high,
    holds,
    words: comparisonWords(checked),
    needed: holds === true ? null : neededWords(checked, quantity),
    standardUncertainty: checked.spread?.standard ?? null,
    expandedUncertainty: checked.spread?.expanded ?? null,
    chanceOutside: chanceOutside(checked),
    guardBand: checked.guard,
    closeToLimit: isClose(checked),
    agreement: agreementOf(checked, decision, quantity),
  };
}
