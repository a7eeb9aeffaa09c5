import { quantities, type QuantityKind, type Unit } from '@countercheck/measurement';
import { findEntry } from '../catalog/index.ts';
import { isNumeric } from '../catalog/entry.ts';
import type { Item, Limit, RuleSet } from '../schema/index.ts';
import type { RuleProblem } from './problem.ts';

const zonesNeeded = ['1', '2', '3', '4', '5', '6', '7', '8'];
const moistureRegimes = ['A', 'B', 'C'];

/** What a limit may look at besides its own data. */
export interface LimitContext {
  set: RuleSet;
  item: Item;
}

/** The unit in which a limit comes out; null when it refers to an item that has no limit. */
function unitOfLimit(limit: Limit, set: RuleSet, seen: readonly string[] = []): Unit | null {
  if (limit.kind === 'per-area') return quantities.airflow.unit;
  if (limit.kind !== 'factor-of') return limit.unit;
  const other = set.items.find((each) => each.item === limit.item);
  if (!other?.limit || seen.includes(limit.item)) return null;
  return unitOfLimit(other.limit, set, [...seen, limit.item]);
}

function missingZones(zones: Record<string, number>): string[] {
  return zonesNeeded.filter(
    (zone) =>
      zones[zone] === undefined && !moistureRegimes.every((regime) => zones[zone + regime] !== undefined),
  );
}

function checkReferences(
  limit: Limit,
  { set, item }: LimitContext,
  path: RuleProblem['path'],
): RuleProblem[] {
  if (limit.kind === 'by-zone') {
    const missing = missingZones(limit.zones);
    return missing.length === 0
      ? []
      : [{ path: [...path, 'zones'], message: `no limit for climate zone ${missing.join(', ')}` }];
  }
  if (limit.kind === 'factor-of' && unitOfLimit(limit, set) === null)
    return [
      {
        path: [...path, 'item'],
        message: `"${limit.item}" is not an item of this set with a limit of its own`,
      },
    ];
  if (limit.kind !== 'formula') return [];
  return limit.terms.flatMap((term, i): RuleProblem[] => {
    const entry = findEntry(term.quantity, item);
    const at = [...path, 'terms', i, 'quantity'];
    if (typeof entry === 'string') return [{ path: at, message: entry }];
    return isNumeric(entry) ? [] : [{ path: at, message: `"${term.quantity}" is not a number` }];
  });
}

/** Problems of one limit that is compared with a quantity of the given kind. */
export function checkLimit(
  limit: Limit,
  quantity: QuantityKind,
  context: LimitContext,
  path: RuleProblem['path'],
): RuleProblem[] {
  const problems = checkReferences(limit, context, path);
  if (problems.length > 0) return problems;
  const unit = unitOfLimit(limit, context.set);
  const wanted = quantities[quantity].unit;
  if (unit === wanted) return [];
  return [
    {
      path: [...path, limit.kind === 'factor-of' ? 'item' : 'unit'],
      message: `the limit is in ${unit}, the quantity in ${wanted}`,
    },
  ];
}
