import type { QuantityKind, SubjectKind, TestKey } from '@countercheck/measurement';

/** What a named quantity is: a number with a unit, a yes or no, or one of some words. */
export type EntryKind = QuantityKind | 'yes-no' | 'text';

/** One named quantity that a rule may look at. */
export interface Entry {
  /** e.g. `house.conditionedFloorArea`; the part before the first dot says where it is from */
  name: string;
  from: 'house' | 'subject' | 'reported' | 'measured';
  label: string;
  kind: EntryKind;
  /** the subjects that have it; house quantities are readable for every subject */
  subjects: readonly SubjectKind[];
  /** the words it can be, when it is a text with a closed list */
  values?: readonly string[];
  /** the test that gives it, for measured quantities */
  test?: TestKey;
}

export type Numeric = Entry & { kind: QuantityKind };

/** True when the quantity is a number with a unit. */
export function isNumeric(entry: Entry): entry is Numeric {
  return entry.kind !== 'yes-no' && entry.kind !== 'text';
}
