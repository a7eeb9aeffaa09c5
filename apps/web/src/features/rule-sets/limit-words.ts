import {
  quantities,
  toDisplay,
  type QuantityKind,
  type Unit,
  type UnitSystem,
} from '@countercheck/measurement';
import { findEntry, type Item, type Limit } from '@countercheck/rules';

type Asker = Pick<Item, 'subject' | 'tests'>;

/** A named quantity in words, as the item sees it; what was reported is told from what was read. */
export function labelOf(name: string, item: Asker): string {
  const entry = findEntry(name, item);
  if (typeof entry === 'string') return name;
  return entry.from === 'reported' ? `the reported ${entry.label}` : entry.label;
}

function kindOf(unit: Unit): QuantityKind {
  const kinds = Object.keys(quantities) as QuantityKind[];
  return kinds.find((kind) => quantities[kind].unit === unit) ?? 'ratio';
}

/** A limit's number as the rule set states it, or as near as four digits come in the other units. */
export function numberWords(value: number, unit: Unit, system: UnitSystem): string {
  const kind = kindOf(unit);
  const shown = system === 'us' ? value : Number(toDisplay(kind, value, system).toPrecision(4));
  const label = quantities[kind][system].label;
  return label ? `${shown} ${label}` : String(shown);
}

/** A limit in words. Nothing is worked out for a house here; the sheet of the house does that. */
export function limitWords(
  limit: Limit,
  item: Asker,
  titles: Map<string, string>,
  system: UnitSystem,
): string {
  switch (limit.kind) {
    case 'constant':
      return numberWords(limit.value, limit.unit, system);
    case 'per-area':
      return `${numberWords(limit.value, limit.unit, system)} of conditioned floor`;
    case 'by-zone':
      return zoneWords(limit.zones, limit.unit, system);
    case 'formula': {
      const terms = limit.terms.map(
        ({ quantity, coefficient }) => `${coefficient} × ${labelOf(quantity, item)}`,
      );
      const parts = limit.constant === 0 ? terms : [String(limit.constant), ...terms];
      const unit = quantities[kindOf(limit.unit)].us.label;
      return `${parts.join(' + ')}${unit ? `, in ${unit}` : ''}`;
    }
    case 'factor-of':
      return `${Number((limit.factor * 100).toPrecision(6))} % of the limit of “${titles.get(limit.item) ?? limit.item}”`;
  }
}

function zoneWords(zones: Record<string, number>, unit: Unit, system: UnitSystem): string {
  const byValue = new Map<number, string[]>();
  for (const [zone, value] of Object.entries(zones))
    byValue.set(value, [...(byValue.get(value) ?? []), zone]);
  return [...byValue]
    .map(([value, names]) => `${numberWords(value, unit, system)} in climate zone ${names.join(', ')}`)
    .join('; ');
}
