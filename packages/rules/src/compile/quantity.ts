import type { MeasuredValue, TestKey } from '@countercheck/measurement';
import { isNumeric, type Entry } from '../catalog/entry.ts';
import { findEntry } from '../catalog/index.ts';
import type { Item } from '../schema/index.ts';
import type { Facts, SubjectFacts, Value } from '../types.ts';
import { reportedSpread } from '../uncertainty/reported.ts';
import { exact, spreadOf, type Spread } from '../uncertainty/spread.ts';
import { rawOf, type RawQuantity } from './raw.ts';

export type GapKind =
  | 'no-fact'
  | 'not-reported'
  | 'hidden'
  | 'not-positive'
  | 'not-measured'
  | 'not-given'
  | 'does-not-count'
  | 'no-limit';

/** Why a quantity cannot be used. An object, so that it can never be mistaken for a value. */
export interface Gap {
  readonly kind: GapKind;
  readonly entry: Entry;
  /** the value that cannot be used, or the reason in words */
  readonly detail: string | null;
}

type Read = (facts: Facts, subject: SubjectFacts) => Exclude<Value, null> | Gap;

/** A named quantity bound to the item that asks for it. */
export interface Quantity {
  readonly entry: Entry;
  /** the name as the rule set writes it */
  readonly name: string;
  readonly read: Read;
  /** how uncertain the value is that `read` gives; null when not known, zero for what is taken as given */
  readonly spread: (facts: Facts, subject: SubjectFacts, value: number) => Spread | null;
  /** true when a reading has been entered for it, whether or not it counts; never of a fact or a reported figure */
  readonly entered: (facts: Facts, subject: SubjectFacts) => boolean;
  /** for measured quantities: the test, and whether the result is that of the house */
  readonly test: TestKey | null;
  readonly ofHouse: boolean;
  readonly raw: RawQuantity | null;
}

/** True for a gap, false for any value. */
export function isGap(given: Value | Gap): given is Gap {
  return typeof given === 'object' && given !== null;
}

const never = () => false;
const taken = () => exact;

function usable(value: Value | undefined, gap: Gap): Exclude<Value, null> | Gap {
  if (value === null || value === undefined || value !== value) return gap;
  return value;
}

function readMeasured(entry: Entry, test: TestKey, key: string, ofHouse: boolean, countsOnly: boolean): Read {
  const missing: Gap = { kind: 'not-measured', entry, detail: null };
  const notGiven: Gap = { kind: 'not-given', entry, detail: null };
  return (facts, subject) => {
    const measured = facts.measured[test]?.[ofHouse ? 'house' : subject.id];
    if (!measured) return missing;
    if (countsOnly && !measured.counts) return { kind: 'does-not-count', entry, detail: measured.whyNot };
    const value = measured.values[key]?.value;
    return value === undefined || !Number.isFinite(value) ? notGiven : value;
  };
}

function readReported(entry: Entry, key: string): Read {
  const missing: Gap = { kind: 'not-reported', entry, detail: null };
  const hidden: Gap = { kind: 'hidden', entry, detail: null };
  return (_facts, subject) => {
    if (subject.reportedHidden && (!subject.hiddenFigures || subject.hiddenFigures.includes(key)))
      return hidden;
    const value = subject.reported[key];
    if (value === null || value === undefined || !Number.isFinite(value)) return missing;
    // a share of nothing, or of a negative figure, would pass or fail anything
    return value > 0 ? value : { kind: 'not-positive', entry, detail: String(value) };
  };
}

function measuredSpread(test: TestKey, key: string, ofHouse: boolean): Quantity['spread'] {
  return (facts, subject) => {
    const value: MeasuredValue | undefined =
      facts.measured[test]?.[ofHouse ? 'house' : subject.id]?.values[key];
    return value === undefined ? null : spreadOf(value.standardUncertainty, value.expandedUncertainty);
  };
}

/**
 * Binds a quantity's name to the facts it is read from. Throws when the name is unknown: a set is checked
 * before it is compiled. With `countsOnly` false, readings that do not count are read as well (stop-work).
 */
export function compileQuantity(name: string, item: Item, countsOnly = true): Quantity {
  const entry = findEntry(name, item);
  if (typeof entry === 'string') throw new Error(`${item.item}: ${entry}`);
  const parts = name.split('.');
  const key = parts[parts.length - 1]!;
  const noFact: Gap = { kind: 'no-fact', entry, detail: null };
  const rest = { entry, name, entered: never, spread: taken, test: null, ofHouse: false, raw: null };
  if (entry.from === 'house') return { ...rest, read: (facts) => usable(facts.house[key], noFact) };
  if (entry.from === 'subject')
    return { ...rest, read: (_facts, subject) => usable(subject.facts[key], noFact) };
  if (entry.from === 'reported') {
    const of = isNumeric(entry) ? reportedSpread(key, entry.kind) : null;
    const spread: Quantity['spread'] = of ? (_facts, _subject, value) => of(value) : taken;
    return { ...rest, spread, read: readReported(entry, key) };
  }
  const test = entry.test!;
  const ofHouse = parts.length > 2;
  const entered = (facts: Facts, subject: SubjectFacts) => {
    const measured = facts.measured[test]?.[ofHouse ? 'house' : subject.id];
    // a reading that counts but gives something else (the other fan mode) has not begun this one
    return measured !== undefined && (!measured.counts || measured.values[key] !== undefined);
  };
  const spread = measuredSpread(test, key, ofHouse);
  const raw = rawOf(name, test, key, ofHouse ? 'house' : item.subject);
  const read = readMeasured(entry, test, key, ofHouse, countsOnly);
  return { entry, name, test, ofHouse, entered, spread, raw, read };
}
