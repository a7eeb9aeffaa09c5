import { findEntry, type Criterion, type Item, type Limit, type RuleSet } from '@countercheck/rules';

/** A rule set as plain logic, from which each engine's own language is written. */
export type Amount = { number: number } | { name: string } | { times: [number, Amount] } | { sum: Amount[] };
export type Logic =
  | { compare: '<=' | '>=' | '>' | '=='; left: string; right: Amount | { is: string | number | boolean } }
  | { among: string; values: (string | number)[] }
  | { all: Logic[] }
  | { any: Logic[] };

export interface ItemLogic {
  item: string;
  applies: Logic;
  exempt: Logic;
  pass: Logic;
}

/** One flat name for each quantity, in letters that every engine's language takes. */
export function flatName(...parts: string[]): string {
  return parts.join('_').replace(/[^a-zA-Z0-9]+/g, '_');
}

function nameOf(quantity: string, item: Item): string {
  const [from = '', first = '', second] = quantity.split('.');
  if (from === 'house') return flatName('house', first);
  if (from === 'subject' || from === 'reported') return flatName(from, item.subject, first);
  if (second !== undefined) return flatName('measured', 'house', first, second);
  const entry = findEntry(quantity, item);
  if (typeof entry === 'string') throw new Error(entry);
  return flatName('measured', item.subject, entry.test!, first);
}

const regimes = ['', 'A', 'B', 'C'];

/** A limit by zone is one comparison for each amount, so a limit comes with the condition under which it holds. */
function limitsOf(limit: Limit, set: RuleSet): { when: Logic | null; amount: Amount }[] {
  if (limit.kind === 'constant') return [{ when: null, amount: { number: limit.value } }];
  if (limit.kind === 'per-area')
    return [
      {
        when: null,
        amount: { times: [limit.value / 100, { name: flatName('house', 'conditionedFloorArea') }] },
      },
    ];
  if (limit.kind === 'by-zone') {
    const amounts = [...new Set(Object.values(limit.zones))];
    return amounts.map((number) => {
      const zones = Object.keys(limit.zones).filter((zone) => limit.zones[zone] === number);
      const values = zones.flatMap((zone) => regimes.map((regime) => zone + regime));
      return { when: { among: flatName('house', 'climateZone'), values }, amount: { number } };
    });
  }
  if (limit.kind === 'factor-of') {
    const other = set.items.find((each) => each.item === limit.item)!.limit!;
    return limitsOf(other, set).map(({ when, amount }) => ({
      when,
      amount:
        'number' in amount ? { number: amount.number * limit.factor } : { times: [limit.factor, amount] },
    }));
  }
  throw new Error('No shipped set has a limit by formula.');
}

function shareOf(amount: Amount, name: string): Amount {
  if (!('number' in amount)) throw new Error('A share is a constant in the shipped sets.');
  return { times: [amount.number / 100, { name }] };
}

function bounded(
  left: string,
  limit: Limit,
  set: RuleSet,
  compare: '<=' | '>=' | '>',
  of: string | null,
): Logic {
  const ways = limitsOf(limit, set).map(({ when, amount }): Logic => {
    const test: Logic = { compare, left, right: of === null ? amount : shareOf(amount, of) };
    return when === null ? test : { all: [when, test] };
  });
  return ways.length === 1 ? ways[0]! : { any: ways };
}

function logicOf(criterion: Criterion, item: Item, set: RuleSet): Logic {
  const left = nameOf(criterion.quantity, item);
  if (criterion.check === 'is') return { compare: '==', left, right: { is: criterion.value } };
  if (criterion.check === 'one-of') return { among: left, values: criterion.values };
  if (criterion.check === 'recorded') throw new Error('The thirty items ask for nothing merely recorded.');
  const base = 'of' in criterion ? nameOf(criterion.of, item) : null;
  const side = (limit: Limit, compare: '<=' | '>=' | '>') => bounded(left, limit, set, compare, base);
  if ('low' in criterion) return { all: [side(criterion.low, '>='), side(criterion.high, '<=')] };
  const limit = criterion.limit ?? item.limit!;
  if (criterion.check === 'balanced-within') {
    const other = nameOf(criterion.with, item);
    const most = 1 + (limit as Extract<Limit, { kind: 'constant' }>).value / 100;
    return {
      all: [
        { compare: '<=', left, right: { times: [most, { name: other }] } },
        { compare: '>=', left, right: { times: [1 / most, { name: other }] } },
      ],
    };
  }
  if (criterion.check === 'at-least') return side(limit, '>=');
  return side(limit, criterion.check === 'above' ? '>' : '<=');
}

/** Every item as three conditions. Readings are given without their sign, so magnitudes need no branch. */
export function itemLogic(set: RuleSet): ItemLogic[] {
  return set.items.map((item) => {
    const all = (criteria: readonly Criterion[] = []): Logic[] =>
      criteria.map((each) => logicOf(each, item, set));
    const any = all(item.appliesWhenAny);
    return {
      item: item.item,
      applies: { all: [...all(item.appliesWhen), ...(any.length > 0 ? [{ any }] : [])] },
      exempt: { any: (item.exemptions ?? []).map((each) => ({ all: all(each.require) })) },
      pass: { any: item.options.map((each) => ({ all: [...all(each.when), ...all(each.require)] })) },
    };
  });
}
