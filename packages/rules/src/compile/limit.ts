import type { Item, Limit, RuleSet } from '../schema/index.ts';
import type { Facts, SubjectFacts } from '../types.ts';
import { combine, exact, type Spread } from '../uncertainty/spread.ts';
import { compileQuantity, isGap, type Gap, type Quantity } from './quantity.ts';

type ReadLimit = (facts: Facts, subject: SubjectFacts) => number | Gap;

/** A limit bound to the facts it needs. */
export interface CompiledLimit {
  readonly limit: Limit;
  readonly read: ReadLimit;
  /** its own uncertainty where it is computed from figures that have one; null for a limit taken as given */
  readonly spread: ((facts: Facts, subject: SubjectFacts) => Spread | null) | null;
  /** the quantities it is computed from */
  readonly uses: readonly Quantity[];
}

const area = 'house.conditionedFloorArea';

function perArea(value: number, item: Item): Pick<CompiledLimit, 'read' | 'uses'> {
  const floor = compileQuantity(area, item);
  return {
    uses: [floor],
    read: (facts, subject) => {
      const got = floor.read(facts, subject);
      return isGap(got) ? got : (value * (got as number)) / 100;
    },
  };
}

function byZone(zones: Record<string, number>, item: Item): Pick<CompiledLimit, 'read' | 'uses'> {
  const zone = compileQuantity('house.climateZone', item);
  return {
    uses: [zone],
    read: (facts, subject) => {
      const got = zone.read(facts, subject);
      if (isGap(got)) return got;
      const name = String(got);
      return zones[name] ?? zones[name.charAt(0)] ?? { kind: 'no-limit', entry: zone.entry, detail: name };
    },
  };
}

function formula(
  limit: Extract<Limit, { kind: 'formula' }>,
  item: Item,
): Pick<CompiledLimit, 'read' | 'uses' | 'spread'> {
  const terms = limit.terms.map((term) => ({ ...term, from: compileQuantity(term.quantity, item) }));
  const uncertain = terms.filter(
    ({ from }) => from.entry.from === 'measured' || from.entry.from === 'reported',
  );
  const spread: CompiledLimit['spread'] = (facts, subject) => {
    let sum: Spread | null = exact;
    for (const { from, coefficient } of uncertain) {
      const got = from.read(facts, subject);
      sum = isGap(got) ? null : combine(sum, from.spread(facts, subject, got as number), coefficient);
    }
    return sum;
  };
  return {
    spread: uncertain.length === 0 ? null : spread,
    uses: terms.map((term) => term.from),
    read: (facts, subject) => {
      let sum = limit.constant;
      for (const term of terms) {
        const got = term.from.read(facts, subject);
        if (isGap(got)) return got;
        sum += term.coefficient * (got as number);
      }
      return sum;
    },
  };
}

/**
 * Compiles a limit to a function that gives it in its stored unit, or the gap that keeps it open.
 * Throws on references that `checkRuleSet` would have reported.
 */
export function compileLimit(limit: Limit, item: Item, set: RuleSet): CompiledLimit {
  if (limit.kind === 'constant') return { limit, uses: [], spread: null, read: () => limit.value };
  if (limit.kind === 'per-area') return { limit, spread: null, ...perArea(limit.value, item) };
  if (limit.kind === 'by-zone') return { limit, spread: null, ...byZone(limit.zones, item) };
  if (limit.kind === 'formula') return { limit, ...formula(limit, item) };
  const other = set.items.find((each) => each.item === limit.item);
  if (!other?.limit) throw new Error(`${item.item}: "${limit.item}" has no limit of its own`);
  const base = compileLimit(other.limit, item, set);
  const { spread } = base;
  return {
    limit,
    uses: base.uses,
    spread: spread && ((facts, subject) => combine(exact, spread(facts, subject), limit.factor)),
    read: (facts, subject) => {
      const got = base.read(facts, subject);
      return typeof got === 'number' ? got * limit.factor : got;
    },
  };
}
