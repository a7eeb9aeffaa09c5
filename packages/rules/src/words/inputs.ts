import { quantities } from '@countercheck/measurement';
import { isNumeric } from '../catalog/entry.ts';
import type { Decision } from '../compile/item.ts';
import type { Measured, Trace } from '../types.ts';

/** Every quantity the item looked at, with its value; null where it is missing or hidden. */
export function inputsOf({ item, inputs, subject }: Decision): Trace['inputs'] {
  return item.uses.map(({ entry, name }, i) => {
    const unit = isNumeric(entry) ? quantities[entry.kind].unit : null;
    const input = { name, label: entry.label, value: inputs[i]!, unit, from: entry.from };
    const revision =
      entry.from === 'reported' ? subject.reportedRevisions?.[name.slice('reported.'.length)] : undefined;
    return revision === undefined ? input : { ...input, revision };
  });
}

/** The measured results that enter the verdict: those of the item's own tests, and those its criteria name. */
export function readingsOf({ item, facts, subject }: Decision): Measured[] {
  const found = new Set<Measured>();
  for (const test of item.item.tests) {
    const own = facts.measured[test]?.[subject.id];
    if (own) found.add(own);
  }
  for (const { test, ofHouse } of item.uses) {
    const got = test === null ? undefined : facts.measured[test]?.[ofHouse ? 'house' : subject.id];
    if (got) found.add(got);
  }
  return [...found];
}
