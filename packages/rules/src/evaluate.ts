import { compileDecisions, decide } from './compile/set.ts';
import { explain } from './explain.ts';
import type { RuleSet } from './schema/index.ts';
import { statuses, type Facts, type ItemVerdict, type Scorecard, type Status } from './types.ts';

/** A compiled rule set: facts in, scorecard out. */
export type Evaluate = (facts: Facts) => Scorecard;

const clear: readonly Status[] = ['pass', 'exempt', 'not-applicable'];

/** Builds the scorecard from verdicts: counts, stop-work, and whether the house may be released. */
function toScorecard(ruleSet: Scorecard['ruleSet'], verdicts: ItemVerdict[]): Scorecard {
  const counts = Object.fromEntries(statuses.map((status) => [status, 0])) as Record<Status, number>;
  for (const each of verdicts) counts[each.status] += 1;
  const stopWork = [...new Set(verdicts.flatMap((each) => each.stopWork ?? []))];
  // a scorecard without a single verdict says nothing about a house, so it releases none
  const releasable =
    verdicts.length > 0 && stopWork.length === 0 && verdicts.every((each) => clear.includes(each.status));
  return { ruleSet, verdicts, counts, releasable, stopWork };
}

/**
 * Compiles a checked rule set into a function from facts to scorecard; compile once, use for many houses.
 * Quantities come in stored units (see `quantities`). The function is pure, never throws on missing facts
 * (they make a verdict wait) and returns plain data. Compiling throws on a set that `checkRuleSet` refuses.
 */
export function compileRuleSet(set: RuleSet): Evaluate {
  const compiled = compileDecisions(set);
  const ruleSet = { key: set.key, version: set.version };
  return (facts) =>
    toScorecard(
      { ...ruleSet },
      decide(compiled, facts).map((each) => explain(each, compiled)),
    );
}

/** `compileRuleSet` and its use in one step, for a single house. */
export function evaluate(set: RuleSet, facts: Facts): Scorecard {
  return compileRuleSet(set)(facts);
}
