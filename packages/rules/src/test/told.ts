import { compileRuleSet } from '../evaluate.ts';
import type { RuleSet } from '../schema/index.ts';
import type { Comparison, Facts, ItemVerdict, Measured } from '../types.ts';
import { factsOf, itemOf, type Case } from './cases.ts';

/** Every result with an uncertainty of this share of itself, under a guard band of the whole of it. */
const share = 0.03;

function uncertain(measured: Measured): Measured {
  const values = Object.entries(measured.values).map(([key, each]) => {
    const u = Math.abs(each.value) * share;
    return [key, { ...each, standardUncertainty: u, expandedUncertainty: 2 * u, coverageFactor: 2 }];
  });
  return { ...measured, values: Object.fromEntries(values) };
}

/** The facts with an uncertainty on every result, under a guard band. */
export function guarded(facts: Facts): Facts {
  const measured = Object.entries(facts.measured).map(([test, bySubject]) => [
    test,
    Object.fromEntries(Object.entries(bySubject).map(([id, each]) => [id, uncertain(each)])),
  ]);
  return {
    ...facts,
    measured: Object.fromEntries(measured),
    decision: { rule: 'guard-band', factor: 1 },
  };
}

const round = (key: string, value: unknown) =>
  // what was read now stands among the comparisons already
  key === 'now' ? undefined : typeof value === 'number' ? Number(value.toPrecision(8)) : value;

/** One line a comparison: its words, its numbers, and what would hold. */
function comparisonLine(each: Comparison): string {
  const {
    name,
    words,
    needed,
    agreement,
    label: _label,
    quantity: _quantity,
    said: _said,
    ahead: _ahead,
    ...numbers
  } = each;
  const rest = { ...numbers, ...(agreement ? { agreement } : {}) };
  return `${name}: ${words} | ${needed ?? '–'} | ${JSON.stringify(rest, round)}`;
}

/** What a verdict tells, without the texts that stand in the set already. */
function toldBy({ trace, headline, ...verdict }: ItemVerdict): string[] {
  const { status, reason, closeWords, stopWork, dependsOn, takes } = verdict;
  return [
    `${status}${verdict.closeToLimit ? ', close' : ''}: ${reason}`,
    ...(closeWords === null ? [] : [closeWords]),
    ...(stopWork === null ? [] : [`stop: ${stopWork}`]),
    `first: ${headline?.words ?? 'nothing'}; by ${trace.decidedBy ?? 'nobody'}; rests on ${dependsOn.join(', ') || 'itself'}`,
    ...trace.applies.map(({ words, holds }) => `applies: ${words}: ${holds}`),
    ...trace.exemptions.flatMap(({ exemption, verdict: found, comparisons }) => [
      `exemption ${exemption}: ${found}`,
      ...comparisons.map(comparisonLine),
    ]),
    ...trace.options.flatMap(({ option, verdict: found, missing, comparisons }) => [
      `option ${option}: ${found} ${missing.join('; ')}`,
      ...comparisons.map(comparisonLine),
    ]),
    `inputs: ${trace.inputs.map(({ name, label, value, unit, from }) => `${name} (${label}, ${from}) ${value} ${unit}`).join('; ')}`,
    ...trace.wouldChange.map((words) => `would change: ${words}`),
    ...takes.map((take) => `takes: ${JSON.stringify(take, round)}`),
    `read: ${trace.readingIds.join(', ')}`,
  ];
}

/** What the cases of an item are told in words and numbers: as they stand, and with uncertainties and a guard band. */
export function toldOf(set: RuleSet, item: string, cases: readonly Case[]): string {
  const evaluate = compileRuleSet(set);
  const tell = (facts: Facts) =>
    toldBy(evaluate(facts).verdicts.find((verdict) => verdict.item === item)!).map((line) => `  ${line}`);
  const told = cases.flatMap((each) => {
    const facts = factsOf(each, itemOf(set, item));
    return [each.case, ...tell(facts), ' with a guard band', ...tell(guarded(facts))];
  });
  return `${told.map((line) => line.trimEnd()).join('\n')}\n`;
}
