import { compileRuleSet } from '@countercheck/rules';
import { factsOf, itemOf, type Case } from '../../../packages/rules/src/test/cases.ts';
import { shippedSets } from '../../../packages/rules/src/test/sets.ts';
import type { Driver } from './index.ts';

/** Status of one item of a shipped set in the plain house, with what the check says about house and readings. */
const verdict: Driver = ({ set: key, item, ...rest }) => {
  const set = shippedSets.find((each) => each.key === key);
  if (!set) throw new Error(`no set is called ${String(key)}`);
  const found = itemOf(set, String(item));
  const given = rest as Case['given'];
  const facts = factsOf({ case: '', given, expect: { status: 'pass' } }, found);
  const judged = compileRuleSet(set)(facts).verdicts.find((each) => each.item === item);
  return {
    status: judged?.status,
    stops: judged?.stopWork !== null,
    decidedBy: judged?.trace.decidedBy,
    confirmed: found.source.confirmed,
  };
};

export const verdicts = { verdict };
