import { describe, expect, it } from 'vitest';
import { compileRuleSet } from './evaluate.ts';
import { casesOf, factsOf, itemOf, type Case } from './test/cases.ts';
import { ownItems, shippedVersions } from './test/sets.ts';
import type { ItemVerdict } from './types.ts';

function check(verdict: ItemVerdict | undefined, expected: Case['expect']): void {
  expect(verdict).toMatchObject({ status: expected.status });
  if (expected.reason !== undefined)
    expect(verdict!.reason.toLowerCase()).toContain(expected.reason.toLowerCase());
  if (expected.needed !== undefined) expect(verdict!.headline?.needed).toBe(expected.needed);
  if (expected.wouldChange !== undefined)
    expect(verdict!.trace.wouldChange.join('\n')).toContain(expected.wouldChange);
  if (expected.stopWork === null) expect(verdict!.stopWork).toBeNull();
  else if (expected.stopWork !== undefined) expect(verdict!.stopWork).toContain(expected.stopWork);
}

describe.each(shippedVersions)('the cases of $set.key $set.version', (version) => {
  const { set } = version;
  const evaluate = compileRuleSet(set);
  const files = casesOf(version);
  const listed = files.flatMap((file) =>
    file.cases.map((each) => ({ item: file.item, title: each.case, each })),
  );

  it.each(listed)('$item: $title', ({ item, each }) => {
    const { verdicts } = evaluate(factsOf(each, itemOf(set, item)));
    check(
      verdicts.find((verdict) => verdict.item === item),
      each.expect,
    );
  });

  // an heir owes cases for what it changes; the rest is covered by the set it inherits from
  it.each(ownItems(version).map((each) => each.item))(
    '%s has a case that passes and one that fails',
    (item) => {
      const found = files
        .filter((file) => file.item === item)
        .flatMap((file) => file.cases.map((each) => each.expect.status));
      expect(found).toContain('pass');
      expect(found).toContain('fail');
    },
  );
});
