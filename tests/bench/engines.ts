import { isDeepStrictEqual } from 'node:util';
import { compileDecisions, compileRuleSet, decide, explain } from '@countercheck/rules';
import { itemLogic } from './engines/expression.ts';
import { built, interpreted } from './engines/json-logic.ts';
import { jsonRules } from './engines/json-rules.ts';
import { randomHouse, seeded } from './engines/random-facts.ts';
import { interleaved, type Work } from './engines/rounds.ts';
import { thirtyItems } from './engines/thirty-items.ts';
import { zen } from './engines/zen.ts';

const sameHouses = 4000;
const timedHouses = 512;

/**
 * Thirty items, judged by this service's rules and by four other engines in one process, in turn, with verdicts
 * first asserted equal. Usage: npm run bench engines [rounds] [ms per round]
 */
const rounds = Number(process.argv[2] ?? 9);
const ms = Number(process.argv[3] ?? 200);

const set = thirtyItems();
const compiled = compileDecisions(set);
const evaluate = compileRuleSet(set);
const logic = itemLogic(set);
const random = seeded(20_260_101);
const houses = Array.from({ length: sameHouses }, () => randomHouse(set, random));
const others = [jsonRules(logic), zen(logic, false), zen(logic, true), interpreted(logic), built(logic)];

const seen: Record<string, number> = {};
for (const { facts, flat } of houses) {
  const decisions = decide(compiled, facts);
  const own = decisions.map((each) => each.status);
  for (const status of own) seen[status] = (seen[status] ?? 0) + 1;
  for (const other of others) {
    const answers = await other.answers(flat);
    if (!isDeepStrictEqual(answers, own))
      throw new Error(`${other.name} answers otherwise: ${JSON.stringify({ flat, own, answers })}`);
  }
}
// nothing that the words say is missing from the trace as data
for (const { facts } of houses.slice(0, 200)) {
  const told = decide(compiled, facts).map((each) => explain(each, compiled));
  if (!isDeepStrictEqual(told, evaluate(facts).verdicts)) throw new Error('The trace lacks something.');
}
const counts = Object.entries(seen).map(([status, count]) => `${count} ${status}`);
console.log(`${sameHouses} random houses × ${set.items.length} items: equal verdicts (${counts.join(', ')})`);

const works: [string, Work][] = [
  ['this service, full trace as data', (i) => decide(compiled, houses[i]!.facts)],
  ['this service, trace in words', (i) => evaluate(houses[i]!.facts)],
  ...others.map((other): [string, Work] => [`${other.name}`, (i) => other.answers(houses[i]!.flat)]),
];
const rates = await interleaved(
  works.map(([, work]) => work),
  timedHouses,
  { rounds, ms },
);
const named = (name: string) => rates[works.findIndex(([each]) => each === name)]!;
console.log(
  'Full trace as data: for every item its options, exemptions and conditions with value, limit, uncertainty,\n' +
    'guard band and outcome, their sources, the inputs, and what a failed item takes. In words: the same with\n' +
    'every sentence of the scorecard. The other engines give the verdict only, unless their trace is named.\n' +
    `Median of ${rounds} rounds of ${ms} ms each, in turn; sets of ${set.items.length} items per second:`,
);
for (const [i, [name]] of works.entries()) {
  const times = rates[0]! / rates[i]!;
  console.log(
    `  ${name.padEnd(36)}${Math.round(rates[i]!).toLocaleString('en-US').padStart(10)}   ours is ${times.toFixed(1)} ×`,
  );
}
const [own, slow] = [rates[0]!, named('json-rules-engine')];
const reached = own >= 100_000 || own >= 13 * slow;
console.log(
  `Aim of 100,000 sets/s or 13 × json-rules-engine: ${reached ? 'reached' : 'MISSED'} (${(own / slow).toFixed(1)} ×)`,
);
if (!reached) process.exitCode = 1;
