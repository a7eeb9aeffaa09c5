import type { Evaluate, Facts, Scorecard } from '@countercheck/rules';
import { factsFrom } from './facts/index.ts';
import { measureReadings, type ReadingOutcome } from './measure.ts';
import type { HouseFile } from './types.ts';

export interface Assessment {
  scorecard: Scorecard;
  /** what each reading gave, in the order of the file */
  measured: ReadingOutcome[];
  facts: Facts;
}

/**
 * From a house's file to its scorecard: raw readings are computed, checked for calibration on the day,
 * summed over the house and judged. Pure, the same on the server, on a page and in a replay; never throws.
 * @param ruleSet a set compiled with `compileRuleSet`
 */
export function assess(file: HouseFile, ruleSet: Evaluate): Assessment {
  const measured = measureReadings(file);
  const facts = factsFrom(file, measured);
  return { scorecard: ruleSet(facts), measured, facts };
}
