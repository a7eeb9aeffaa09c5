import type { Criterion, Item, Limit, RuleSet } from '../schema/index.ts';
import type { Facts, SubjectFacts, Value } from '../types.ts';
import { compileLimit, type CompiledLimit } from './limit.ts';
import { compileQuantity, isGap, type Gap, type Quantity } from './quantity.ts';

/**
 * Relative room given at a limit, for binary arithmetic only: 110 % of 0.085 is 0.09350000000000001 in
 * floating point, and a reading of exactly 0.0935 has to pass. Far below what any instrument can show.
 */
export const tolerance = 1e-9;

/** The outcome of one criterion on one subject, without any words. */
export interface Checked {
  readonly criterion: CompiledCriterion;
  /** the value compared (its magnitude where the criterion asks for that); null when open */
  readonly value: Value;
  /** the figure it is a share of, or the other side of a balance */
  readonly base: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** null while something is missing */
  readonly holds: boolean | null;
  readonly gap: Gap | null;
}

export interface CompiledCriterion {
  readonly source: Criterion;
  readonly quantity: Quantity;
  readonly base: Quantity | null;
  readonly low: CompiledLimit | null;
  readonly high: CompiledLimit | null;
  readonly item: Item;
  /** every quantity it looks at, including those its limits are computed from */
  readonly uses: readonly Quantity[];
  readonly check: (facts: Facts, subject: SubjectFacts) => Checked;
}

function above(value: number, bound: number): boolean {
  return value - bound > tolerance * Math.abs(bound);
}

function within(value: number, low: number | null, high: number | null): boolean {
  if (high !== null && above(value, high)) return false;
  return low === null || low - value <= tolerance * Math.abs(low);
}

type Bounds = { low: Limit | null; high: Limit | null };

function boundsOf(criterion: Criterion, item: Item): Bounds {
  if ('low' in criterion) return { low: criterion.low, high: criterion.high };
  const limit = ('limit' in criterion ? criterion.limit : undefined) ?? item.limit ?? null;
  if (criterion.check === 'at-least' || criterion.check === 'above') return { low: limit, high: null };
  return { low: null, high: limit };
}

function open(criterion: CompiledCriterion, value: Value, base: number | null, gap: Gap): Checked {
  return { criterion, value, base, low: null, high: null, holds: null, gap };
}

function checkWords(self: CompiledCriterion): CompiledCriterion['check'] {
  const { source, quantity } = self;
  const allowed = source.check === 'is' ? [source.value] : source.check === 'one-of' ? source.values : null;
  return (facts, subject) => {
    const got = quantity.read(facts, subject);
    // an absent value is not "recorded": it stays open until someone enters it
    if (isGap(got)) return open(self, null, null, got);
    const holds = allowed === null || (allowed as readonly Value[]).includes(got);
    return { criterion: self, value: got, base: null, low: null, high: null, holds, gap: null };
  };
}

function checkNumber(self: CompiledCriterion): CompiledCriterion['check'] {
  const { source, quantity, low, high } = self;
  const magnitude = 'magnitude' in source && source.magnitude === true;
  const strict = source.check === 'above';
  return (facts, subject) => {
    const got = quantity.read(facts, subject);
    if (isGap(got)) return open(self, null, null, got);
    const value = magnitude ? Math.abs(got as number) : (got as number);
    const least = low === null ? null : low.read(facts, subject);
    if (least !== null && typeof least !== 'number') return open(self, value, null, least);
    const most = high === null ? null : high.read(facts, subject);
    if (most !== null && typeof most !== 'number') return open(self, value, null, most);
    const holds = strict ? above(value, least!) : within(value, least, most);
    return { criterion: self, value, base: null, low: least, high: most, holds, gap: null };
  };
}

function checkShare(self: CompiledCriterion, balance: boolean): CompiledCriterion['check'] {
  const { source, quantity, base: baseOf, low, high } = self;
  const magnitude = 'magnitude' in source && source.magnitude === true;
  return (facts, subject) => {
    const got = quantity.read(facts, subject);
    if (isGap(got)) return open(self, null, null, got);
    const value = magnitude ? Math.abs(got as number) : (got as number);
    const base = baseOf!.read(facts, subject);
    if (isGap(base)) return open(self, value, null, base);
    const from = magnitude ? Math.abs(base as number) : (base as number);
    const most = high!.read(facts, subject);
    if (typeof most !== 'number') return open(self, value, from, most);
    const least = low === null ? null : low.read(facts, subject);
    if (least !== null && typeof least !== 'number') return open(self, value, from, least);
    // larger ÷ smaller ≤ 1 + share, written as bounds of this side around the other
    const top = balance ? from * (1 + most / 100) : (from * most) / 100;
    const bottom = balance ? from / (1 + most / 100) : least === null ? null : (from * least) / 100;
    const holds = within(value, bottom, top);
    return { criterion: self, value, base: from, low: bottom, high: top, holds, gap: null };
  };
}

type Draft = { -readonly [K in keyof CompiledCriterion]: CompiledCriterion[K] };

/** Compiles one criterion of an item. With `countsOnly` false, readings that do not count are looked at too. */
export function compileCriterion(
  source: Criterion,
  item: Item,
  set: RuleSet,
  countsOnly = true,
): CompiledCriterion {
  const quantity = compileQuantity(source.quantity, item, countsOnly);
  const name = 'of' in source ? source.of : 'with' in source ? source.with : null;
  const base = name === null ? null : compileQuantity(name, item, countsOnly);
  const wordy = source.check === 'is' || source.check === 'one-of' || source.check === 'recorded';
  const bounds = wordy ? { low: null, high: null } : boundsOf(source, item);
  const low = bounds.low && compileLimit(bounds.low, item, set);
  const high = bounds.high && compileLimit(bounds.high, item, set);
  const uses = [quantity, ...(base ? [base] : []), ...(low?.uses ?? []), ...(high?.uses ?? [])];
  const self = { source, quantity, base, low, high, item, uses } as unknown as Draft;
  if (wordy) self.check = checkWords(self);
  else if (base) self.check = checkShare(self, source.check === 'balanced-within');
  else self.check = checkNumber(self);
  return self;
}
