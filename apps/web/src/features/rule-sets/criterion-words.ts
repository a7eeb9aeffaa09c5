import { quantities, type QuantityKind, type UnitSystem } from '@countercheck/measurement';
import { findEntry, isNumeric, type Criterion, type Item, type Limit } from '@countercheck/rules';
import { labelOf, limitWords, numberWords } from './limit-words.ts';

function valueWords(name: string, value: string | number | boolean, item: Item, system: UnitSystem): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  const entry = findEntry(name, item);
  if (typeof value === 'number' && typeof entry !== 'string' && isNumeric(entry)) {
    return numberWords(value, quantities[entry.kind as QuantityKind].unit, system);
  }
  return String(value).replaceAll('-', ' ');
}

/** What a criterion asks for, in one sentence part. */
export function criterionWords(
  criterion: Criterion,
  item: Item,
  titles: Map<string, string>,
  system: UnitSystem,
): string {
  const what = labelOf(criterion.quantity, item);
  const say = (limit: Limit | undefined) => {
    const used = limit ?? item.limit;
    return used ? limitWords(used, item, titles, system) : 'the limit';
  };
  switch (criterion.check) {
    case 'at-most':
      return `${what}: at most ${say(criterion.limit)}`;
    case 'at-least':
      return `${what}: at least ${say(criterion.limit)}`;
    case 'above':
      return `${what}: above ${say(criterion.limit)}`;
    case 'between':
      return `${what}: from ${say(criterion.low)} to ${say(criterion.high)}`;
    case 'at-most-share-of':
      return `${what}: at most ${say(criterion.limit)} of ${labelOf(criterion.of, item)}`;
    case 'share-between':
      return `${what}: from ${say(criterion.low)} to ${say(criterion.high)} of ${labelOf(criterion.of, item)}`;
    case 'balanced-within':
      return `${what} and ${labelOf(criterion.with, item)}: within ${say(criterion.limit)} of each other`;
    case 'is':
      return `${what}: ${valueWords(criterion.quantity, criterion.value, item, system)}`;
    case 'one-of': {
      const words = criterion.values.map((value) => valueWords(criterion.quantity, value, item, system));
      return `${what}: ${words.join(' or ')}`;
    }
    case 'recorded':
      return `${what}: recorded`;
  }
}
