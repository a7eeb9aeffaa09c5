import type { Item, Limit, RuleSet } from '../schema/index.ts';
import type { Facts, SubjectFacts } from '../types.ts';
import { compileQuantity, isGap, type Gap, type Quantity } from './quantity.ts';

type ReadLimit = (facts: Facts, subject: SubjectFacts) => number | Gap;

/** A limit bound to the facts it needs. */
export interface CompiledLimit {
  readonly limit: Limit;
  readonly read: ReadLimit;
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
): Pick<CompiledLimit, 'read' | 'uses'> {
  const terms = limit.terms.map((term) => ({ ...term, from: compileQuantity(term.quantity, item) }));
  return {
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
  if (limit.kind === 'constant') return { limit, uses: [], read: () => limit.value };
  if (limit.kind === 'per-area') return { limit, ...perArea(limit.value, item) };
  if (limit.kind === 'by-zone') return { limit, ...byZone(limit.zones, item) };
  if (limit.kind === 'formula') return { limit, ...formula(limit, item) };
  const other = set.items.find((each) => each.item === limit.item);
  if (!other?.limit) throw new Error(`${item.item}: "${limit.item}" has no limit of its own`);
  const base = compileLimit(other.limit, item, set);
  return {
    limit,
    uses: base.uses,
    read: (facts, subject) => {
      const got = base.read(facts, subject);
      return typeof got === 'number' ? got * limit.factor : got;
    },
  };
}
