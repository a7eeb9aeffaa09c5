import { LogicEngine } from 'json-logic-engine';
import jsonLogic from 'json-logic-js';
import type { Amount, ItemLogic, Logic } from './expression.ts';
import type { House } from './random-facts.ts';
import type { Answer, Contender } from './status.ts';

function amount(given: Amount): unknown {
  if ('number' in given) return given.number;
  if ('name' in given) return { var: given.name };
  if ('times' in given) return { '*': [given.times[0], amount(given.times[1])] };
  return { '+': given.sum.map(amount) };
}

function rule(given: Logic): unknown {
  if ('all' in given) return given.all.length === 0 ? true : { and: given.all.map(rule) };
  if ('any' in given) return given.any.length === 0 ? false : { or: given.any.map(rule) };
  if ('among' in given) return { in: [{ var: given.among }, given.values] };
  const right = 'is' in given.right ? given.right.is : amount(given.right);
  return { [given.compare === '==' ? '===' : given.compare]: [{ var: given.left }, right] };
}

const verdict = ({ applies, exempt, pass }: ItemLogic) => ({
  if: [
    rule(applies),
    { if: [rule(exempt), 'exempt', { if: [rule(pass), 'pass', 'fail'] }] },
    'not-applicable',
  ],
});

/** JSON Logic, read anew for every house. */
export function interpreted(items: readonly ItemLogic[]): Contender<House['flat']> {
  const rules = items.map(verdict);
  return {
    name: 'json-logic-js',
    answers: (flat) => rules.map((each) => jsonLogic.apply(each, flat) as Answer),
  };
}

/** The same JSON Logic compiled to functions once. */
export function built(items: readonly ItemLogic[]): Contender<House['flat']> {
  const engine = new LogicEngine();
  const rules = items.map((each) => engine.build(verdict(each)) as (flat: House['flat']) => Answer);
  return { name: 'json-logic-engine, compiled', answers: (flat) => rules.map((each) => each(flat)) };
}
