import type { SourceMark } from '../source-mark.ts';

/** One rule of sampled verification: its number, its words and where it comes from. */
export interface BatchRule extends SourceMark {
  value: number;
  words: string;
}

/** A set of rules for batches of like houses. */
export interface BatchRules {
  key: string;
  title: string;
  /** houses in a set at the most */
  setSize: BatchRule;
  /** passes in a row before sampling may begin */
  passesToEnter: BatchRule;
  /** houses tested before sampling may begin, at the least */
  testedToEnter: BatchRule;
  /** houses tested in each set at the least */
  testedPerSet: BatchRule;
  /** share of each set tested, hundredths of a percent, rounded up */
  testedShare: BatchRule;
  /** more houses of the same set tested after its first failure; 0 = all of them at once */
  widening: BatchRule;
  /** passes in a row before sampling goes on after a failed set */
  passesToReturn: BatchRule;
}

const seen = (value: number, words: string, source: string): BatchRule => ({
  ...{ value, words, source },
  mark: 'seen',
});
const practice = (value: number, words: string): BatchRule => ({
  ...{ value, words, source: '–' },
  mark: 'common practice, no published source',
});
const older =
  'RESNET chapter 6 before 2025, by http://www.buildcompliant.com/news/ and https://jkpenergy.com/sampling';
const process607 =
  'RESNET 607.1 (multifamily, per feature), https://standards.resnet.us/docs/607-sample-verification-process';
const failures608 = 'RESNET 608, https://standards.resnet.us/docs/608-procedure-for-resolving-failures.md';

export const batchRuleSets: readonly BatchRules[] = [
  {
    key: 'one-in-seven',
    title: 'One in seven (older rule)',
    setSize: seen(7, 'At most seven houses to a set.', older),
    passesToEnter: seen(3, 'Sampling begins after the first three houses in a row have passed.', older),
    testedToEnter: seen(3, 'Three houses are tested first.', older),
    testedPerSet: seen(1, 'At least one house of each set is tested.', older),
    testedShare: practice(0, 'No share beyond the one house.'),
    widening: seen(
      2,
      'After a failure two more houses of the same set are tested; if one of them fails, all the others.',
      older,
    ),
    passesToReturn: practice(3, 'After a failed set, three passes in a row again.'),
  },
  {
    key: 'twenty-percent',
    title: 'Twenty percent (newer rule)',
    setSize: practice(7, 'At most seven houses to a set.'),
    passesToEnter: seen(5, 'Sampling begins after five in a row without a failure.', process607),
    testedToEnter: seen(5, 'At least five are tested first.', process607),
    testedPerSet: practice(1, 'At least one house of each set is tested.'),
    testedShare: seen(
      2000,
      'At least 20 % of those that remain are tested, rounded up in each set.',
      process607,
    ),
    widening: seen(
      0,
      'A failure stops sampling at once; every other house of the set is tested.',
      failures608,
    ),
    passesToReturn: seen(
      3,
      'Three in a row without a failure before sampling goes on; they do not count for the 20 %.',
      failures608,
    ),
  },
];

/** The rule set of a key. Throws RangeError where there is none. */
export function batchRulesOf(key: string): BatchRules {
  const rules = batchRuleSets.find((each) => each.key === key);
  if (!rules) throw new RangeError(`There are no batch rules "${key}".`);
  return rules;
}

/** How many houses of a set are tested before anything has failed. Never throws. */
export const testsInSet = (rules: BatchRules, size: number): number =>
  Math.min(size, Math.max(rules.testedPerSet.value, Math.ceil((size * rules.testedShare.value) / 10_000)));
