import { ZenEngine } from '@gorules/zen-engine';
import type { Amount, ItemLogic, Logic } from './expression.ts';
import type { House } from './random-facts.ts';
import type { Answer, Contender } from './status.ts';

function amount(given: Amount): string {
  if ('number' in given) return String(given.number);
  if ('name' in given) return given.name;
  if ('times' in given) return `(${given.times[0]} * ${amount(given.times[1])})`;
  return `(${given.sum.map(amount).join(' + ')})`;
}

function expression(given: Logic): string {
  if ('all' in given) return given.all.length === 0 ? 'true' : `(${given.all.map(expression).join(' and ')})`;
  if ('any' in given) return given.any.length === 0 ? 'false' : `(${given.any.map(expression).join(' or ')})`;
  if ('among' in given) return `(${given.among} in ${JSON.stringify(given.values)})`;
  const right = 'is' in given.right ? JSON.stringify(given.right.is) : amount(given.right);
  return `(${given.left} ${given.compare} ${right})`;
}

const edge = (sourceId: string, targetId: string) => ({
  id: `${sourceId}-${targetId}`,
  type: 'edge',
  sourceId,
  targetId,
});

/** One node with an expression for each item, the leanest form the engine offers. */
export function zen(items: readonly ItemLogic[], trace: boolean): Contender<House['flat']> {
  const expressions = items.map(({ applies, exempt, pass }, i) => ({
    id: `item-${i}`,
    key: `item_${i}`,
    value: `not(${expression(applies)}) ? 'not-applicable' : (${expression(exempt)} ? 'exempt' : (${expression(pass)} ? 'pass' : 'fail'))`,
  }));
  const decision = new ZenEngine().createDecision({
    contentType: 'application/vnd.gorules.decision',
    nodes: [
      { id: 'in', name: 'in', type: 'inputNode', position: { x: 0, y: 0 } },
      {
        id: 'items',
        name: 'items',
        type: 'expressionNode',
        content: { expressions },
        position: { x: 0, y: 0 },
      },
      { id: 'out', name: 'out', type: 'outputNode', position: { x: 0, y: 0 } },
    ],
    edges: [edge('in', 'items'), edge('items', 'out')],
  });
  return {
    name: trace ? 'zen-engine, with its trace' : 'zen-engine',
    async answers(flat) {
      const { result } = await decision.evaluate(flat, { trace });
      return expressions.map(({ key }) => (result as Record<string, Answer>)[key]!);
    },
  };
}
