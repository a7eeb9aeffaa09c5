import type { Criterion, Item, Limit, RuleSet } from '../schema/index.ts';
import type { Facts, SubjectFacts, Value } from '../types.ts';
import { combine, exact, type Spread } from '../uncertainty/spread.ts';
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
  /** of value minus the nearer bound; null when not known or nothing was compared */
  readonly spread: Spread | null;
  /** what the value must keep from the bounds; null under simple acceptance */
  readonly guard: number | null;
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
  /** a guard band applies: the criterion admits a house, it does not ask whether a rule applies */
  readonly guarded: boolean;
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

/** True when the bound that the value is nearer to, or beyond, is the high one. */
export function highIsNearer(value: number, low: number | null, high: number | null): boolean {
  return high !== null && (low === null || high - value <= value - low);
}

function compared(
  criterion: CompiledCriterion,
  facts: Facts,
  value: number,
  base: number | null,
  low: number | null,
  high: number | null,
  spread: Spread | null,
): Checked {
  const { decision } = facts;
  const guard =
    decision?.rule === 'guard-band' && criterion.guarded && spread !== null
      ? decision.factor * spread.expanded
      : null;
  const strict = criterion.source.check === 'above';
  let holds = strict ? above(value, low!) : within(value, low, high);
  if (holds && guard !== null)
    holds = within(value, low === null ? null : low + guard, high === null ? null : high - guard);
  return { criterion, value, base, low, high, spread, guard, holds, gap: null };
}

type Bounds = { low: Limit | null; high: Limit | null };

function boundsOf(criterion: Criterion, item: Item): Bounds {
  if ('low' in criterion) return { low: criterion.low, high: criterion.high };
  const limit = ('limit' in criterion ? criterion.limit : undefined) ?? item.limit ?? null;
  if (criterion.check === 'at-least' || criterion.check === 'above') return { low: limit, high: null };
  return { low: null, high: limit };
}

function open(criterion: CompiledCriterion, value: Value, base: number | null, gap: Gap | null): Checked {
  return { criterion, value, base, low: null, high: null, spread: null, guard: null, holds: null, gap };
}

function checkWords(self: CompiledCriterion): CompiledCriterion['check'] {
  const { source, quantity } = self;
  const allowed = source.check === 'is' ? [source.value] : source.check === 'one-of' ? source.values : null;
  return (facts, subject) => {
    const got = quantity.read(facts, subject);
    // an absent value is not "recorded": it stays open until someone enters it
    if (isGap(got)) return open(self, null, null, got);
    const holds = allowed === null || (allowed as readonly Value[]).includes(got);
    return { ...open(self, got, null, null), holds };
  };
}

function checkNumber(self: CompiledCriterion): CompiledCriterion['check'] {
  const { source, quantity, low, high } = self;
  const magnitude = 'magnitude' in source && source.magnitude === true;
  return (facts, subject) => {
    const got = quantity.read(facts, subject);
    if (isGap(got)) return open(self, null, null, got);
    const value = magnitude ? Math.abs(got as number) : (got as number);
    const least = low === null ? null : low.read(facts, subject);
    if (least !== null && typeof least !== 'number') return open(self, value, null, least);
    const most = high === null ? null : high.read(facts, subject);
    if (most !== null && typeof most !== 'number') return open(self, value, null, most);
    const own = quantity.spread(facts, subject, value);
    const bound = highIsNearer(value, least, most) ? high : low;
    const spread = bound?.spread ? combine(own, bound.spread(facts, subject), 1) : own;
    return compared(self, facts, value, null, least, most, spread);
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
    const bound = highIsNearer(value, bottom, top) ? top : bottom!;
    // the bound is a multiple of the base, and the base may be a reading or a reported figure itself
    const ofBase = baseOf!.spread(facts, subject, from);
    const own = quantity.spread(facts, subject, value);
    const spread = ofBase === exact ? own : from === 0 ? null : combine(own, ofBase, bound / from);
    return compared(self, facts, value, from, bottom, top, spread);
  };
}

type Draft = { -readonly [K in keyof CompiledCriterion]: CompiledCriterion[K] };

/** `counted`: readings that do not count are gaps. `guarded`: a guard band keeps the value from its bounds. */
export interface Reading {
  readonly counted: boolean;
  readonly guarded: boolean;
}

/** Whether a rule applies is asked without a guard band. */
const asking: Reading = { counted: true, guarded: false };

/** Compiles one criterion of an item. */
export function compileCriterion(
  source: Criterion,
  item: Item,
  set: RuleSet,
  { counted, guarded }: Reading = asking,
): CompiledCriterion {
  const quantity = compileQuantity(source.quantity, item, counted);
  const name = 'of' in source ? source.of : 'with' in source ? source.with : null;
  const base = name === null ? null : compileQuantity(name, item, counted);
  const wordy = source.check === 'is' || source.check === 'one-of' || source.check === 'recorded';
  const bounds = wordy ? { low: null, high: null } : boundsOf(source, item);
  const low = bounds.low && compileLimit(bounds.low, item, set);
  const high = bounds.high && compileLimit(bounds.high, item, set);
  const uses = [quantity, ...(base ? [base] : []), ...(low?.uses ?? []), ...(high?.uses ?? [])];
  const self = { source, quantity, base, low, high, item, guarded, uses } as unknown as Draft;
  if (wordy) self.check = checkWords(self);
  else if (base) self.check = checkShare(self, source.check === 'balanced-within');
  else self.check = checkNumber(self);
  return self;
}
