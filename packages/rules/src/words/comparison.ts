import { quantities, type QuantityKind, type UnitSystem } from '@countercheck/measurement';
import { isNumeric } from '../catalog/entry.ts';
import type { Checked } from '../compile/criterion.ts';
import type { Decision } from '../compile/item.ts';
import { aimOf } from '../compile/takes.ts';
import type { Comparison, Said } from '../types.ts';
import { agreementOf } from './agreement.ts';
import { chanceOutside, isClose, marginOf } from './closeness.ts';
import { gapWords } from './gap.ts';
import { sayApart, sayBeside, sayExact, sayNumber, saySafe, withUnit } from './numbers.ts';

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

/** What was compared with a number, in stored units, as far as its words need it. */
type Sayable = Pick<Comparison, 'label' | 'quantity' | 'low' | 'high' | 'holds' | 'guardBand'> & {
  value: number;
  said: Said;
};

function saidOf(checked: Checked): Said {
  const { criterion, base, guard } = checked;
  const balance = criterion.source.check === 'balanced-within';
  const limit = (criterion.high ?? criterion.low)?.limit;
  return {
    as: balance ? 'balance' : base !== null && base !== 0 ? 'share' : 'bound',
    base,
    of: criterion.base && (balance ? criterion.base.entry.label : against[criterion.base.entry.from]!),
    perArea: limit?.kind === 'per-area' ? limit.value : null,
    byZone: limit?.kind === 'by-zone',
    aim: guard !== null && guard > 0 ? aimOf(checked) : null,
  };
}

function sayableOf(checked: Checked): Sayable {
  const { criterion, value, low, high, holds, guard } = checked;
  const { label } = criterion.quantity.entry;
  const numbers = { value: value as number, low, high, holds, guardBand: guard };
  return { label, quantity: quantityOf(checked), ...numbers, said: saidOf(checked) };
}

/** How a limit comes about where it is not a plain number, e.g. " (6 cfm per 100 ft² of floor)". */
function originOf({ perArea, byZone }: Said, system: UnitSystem): string {
  if (perArea !== null) {
    const number = system === 'us' ? sayNumber(perArea, 4) : sayExact(perArea, 'leakagePerFloorArea', system);
    return ` (${withUnit(number, 'leakagePerFloorArea', system)} of conditioned floor)`;
  }
  return byZone ? ' in this climate zone' : '';
}

function shareWords({ quantity, value, low, high, said }: Sayable, system: UnitSystem): string {
  const base = said.base!;
  const share = (value / base) * 100;
  const top = (high! / base) * 100;
  const bottom = low === null ? null : (low / base) * 100;
  const shown = sayBeside(share, 'share', [top, bottom]);
  const start = `${withUnit(sayBeside(value, quantity, [low, high], system), quantity, system)} is ${shown} % of the ${said.of} ${sayExact(base, quantity, system)}`;
  const limit =
    bottom === null
      ? `limit ${sayNumber(top, 2)} %`
      : `must be ${sayNumber(bottom, 2)} to ${sayNumber(top, 2)} %`;
  return `${start}; ${limit}`;
}

function balanceWords({ label, quantity, value, low, high, said }: Sayable, system: UnitSystem): string {
  const base = said.base!;
  const [small, large] = [Math.min(value, base), Math.max(value, base)];
  const apart =
    small > 0
      ? `${sayBeside((large / small - 1) * 100, 'share', [(high! / base - 1) * 100])} % apart`
      : 'one of them is 0';
  const limit = base === 0 ? '' : `; limit ${sayNumber((high! / base - 1) * 100, 2)} %`;
  const shown = withUnit(
    `${sayBeside(value, quantity, [low, high], system)} and ${sayExact(base, quantity, system)}`,
    quantity,
    system,
  );
  return `${label} and ${said.of} are ${shown}, ${apart}${limit}`;
}

function boundWords({ quantity, value, low, high, said }: Sayable, system: UnitSystem): string {
  const bounds = [low, high];
  const shown = withUnit(sayBeside(value, quantity, bounds, system), quantity, system);
  const exact = (bound: number) => sayExact(bound, quantity, system, { value, bounds });
  const limit = (bound: number) => withUnit(exact(bound), quantity, system);
  if (low !== null && high !== null) return `${shown}; must be ${exact(low)} to ${limit(high)}`;
  if (low !== null) return `${shown}; at least ${limit(low)}${originOf(said, system)} needed`;
  return `${shown}; limit ${limit(high!)}${originOf(said, system)}`;
}

function plainWords({ criterion, value }: Checked): string {
  const { label } = criterion.quantity.entry;
  if (criterion.source.check === 'recorded') return `${label} is recorded`;
  if (typeof value === 'boolean') return `${label}: ${value ? 'yes' : 'no'}`;
  return `${label}: ${typeof value === 'string' ? value.replaceAll('-', ' ') : String(value)}`;
}

function aimWords(aim: NonNullable<Said['aim']>, quantity: QuantityKind, system: UnitSystem): string {
  const lead = aim.bound === 'at-most' ? 'at most' : 'at least';
  return `${lead} ${withUnit(saySafe(aim.value, quantity, aim.bound, system), quantity, system)}`;
}

/** Within its limit and yet refused: the guard band says so. */
function guardWords(sayable: Sayable, system: UnitSystem): string {
  const { quantity, holds, guardBand: guard, said } = sayable;
  const margin = marginOf(sayable);
  if (holds !== false || guard === null || margin === null || margin < 0) return '';
  const band = withUnit(sayApart(guard, quantity, system), quantity, system);
  const accepted = said.aim === null ? '' : `: ${aimWords(said.aim, quantity, system)} is accepted`;
  return `; within the limit, but not by the guard band of ${band}${accepted}`;
}

const forms = { share: shareWords, balance: balanceWords, bound: boundWords };

const comparedWords = (sayable: Sayable, system: UnitSystem) =>
  forms[sayable.said.as](sayable, system) + guardWords(sayable, system);

/** A criterion's outcome as one sentence part, e.g. "0.092 in. w.c. is 108 % of the reported 0.085; limit 110 %". */
export function comparisonWords(checked: Checked): string {
  const { gap } = checked;
  if (gap) return gapWords(gap);
  if (checked.low === null && checked.high === null) return plainWords(checked);
  return comparedWords(sayableOf(checked), 'us');
}

/** The reading that would just do, in numbers; null when there is none to name. */
function neededNumber({ quantity, low, high, guardBand: guard, said }: Sayable, system: UnitSystem) {
  if (guard !== null && guard > 0) return said.aim && aimWords(said.aim, quantity, system);
  // either side may be the wrong one, so no figure is named for this one alone
  if (said.as === 'balance')
    return said.base ? `within ${sayNumber((high! / said.base - 1) * 100, 2)} % of the ${said.of}` : null;
  const say = (bound: number) => withUnit(sayExact(bound, quantity, system), quantity, system);
  if (low !== null && high !== null) return `${sayExact(low, quantity, system)} to ${say(high)}`;
  if (high !== null) return `at most ${say(high)}`;
  return low === null ? null : `at least ${say(low)}`;
}

/** The reading that would just do, e.g. "at most 0.0935 in. w.c."; null when there is no number to name. */
export function neededWords(checked: Checked): string | null {
  if (checked.gap) return null;
  if (checked.low !== null || checked.high !== null) return neededNumber(sayableOf(checked), 'us');
  const { source } = checked.criterion;
  if (source.check === 'is')
    return source.value === true ? 'yes' : source.value === false ? 'no' : String(source.value);
  return source.check === 'one-of' ? source.values.join(' or ') : null;
}

/** The words of a comparison in a unit system, from its numbers; as they stand where it was not one of numbers. */
export function wordsIn(comparison: Comparison, system: UnitSystem): Pick<Comparison, 'words' | 'needed'> {
  const { value, said, low, high, words, needed } = comparison;
  // verdicts of before there was `said` are told as they were kept
  if (!said || value === null || (low === null && high === null)) return { words, needed };
  const sayable: Sayable = { ...comparison, value, said };
  return {
    words: comparedWords(sayable, system),
    needed: needed === null ? null : neededNumber(sayable, system),
  };
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
    needed: holds === true ? null : neededWords(checked),
    said: low === null && high === null ? null : saidOf(checked),
    standardUncertainty: checked.spread?.standard ?? null,
    expandedUncertainty: checked.spread?.expanded ?? null,
    chanceOutside: chanceOutside(checked),
    guardBand: checked.guard,
    closeToLimit: isClose(checked),
    agreement: agreementOf(checked, decision, quantity),
  };
}
