import { Engine, type Almanac, type ConditionProperties, type TopLevelCondition } from 'json-rules-engine';
import type { Amount, ItemLogic, Logic } from './expression.ts';
import type { House } from './random-facts.ts';
import { answer, type Contender } from './status.ts';

const operators = {
  '<=': 'lessThanInclusive',
  '>=': 'greaterThanInclusive',
  '>': 'greaterThan',
  '==': 'equal',
} as const;

type Condition = TopLevelCondition | ConditionProperties;

/** The engine has no arithmetic: a computed limit is a dynamic fact, which it works out once for each house. */
function computedFact(given: Amount, engine: Engine): unknown {
  if ('number' in given) return given.number;
  if ('name' in given) return { fact: given.name };
  if (!('times' in given)) throw new Error('No shipped set adds amounts.');
  const [factor, of] = given.times;
  const id = `computed:${JSON.stringify(given)}`;
  const base = computedFact(of, engine) as { fact: string };
  engine.addFact(
    id,
    async (_params: unknown, almanac: Almanac) => factor * (await almanac.factValue<number>(base.fact)),
  );
  return { fact: id };
}

function condition(given: Logic, engine: Engine): Condition {
  if ('all' in given) return { all: given.all.map((each) => condition(each, engine)) };
  if ('any' in given) return { any: given.any.map((each) => condition(each, engine)) };
  if ('among' in given) return { fact: given.among, operator: 'in', value: given.values };
  const value = 'is' in given.right ? given.right.is : computedFact(given.right, engine);
  return { fact: given.left, operator: operators[given.compare], value };
}

const empty = (given: Logic) =>
  ('all' in given ? given.all : 'any' in given ? given.any : [given]).length === 0;

/** One rule for each condition that an item has; what it raises is gathered into the verdict. */
export function jsonRules(items: readonly ItemLogic[]): Contender<House['flat']> {
  const engine = new Engine([], { allowUndefinedFacts: true });
  for (const item of items)
    for (const which of ['applies', 'exempt', 'pass'] as const)
      if (!empty(item[which]))
        engine.addRule({
          conditions: condition(item[which], engine) as TopLevelCondition,
          event: { type: `${item.item} ${which}` },
        });
  const always = new Set(items.filter((each) => empty(each.applies)).map((each) => each.item));
  return {
    name: 'json-rules-engine',
    async answers(flat) {
      const { events } = await engine.run(flat);
      const raised = new Set(events.map((each) => each.type));
      return items.map(({ item }) =>
        answer(
          always.has(item) || raised.has(`${item} applies`),
          raised.has(`${item} exempt`),
          raised.has(`${item} pass`),
        ),
      );
    },
  };
}
