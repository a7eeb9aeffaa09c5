import { findingsAt, levelOf, look } from '../look.ts';
import { signalKeys, type SignalKey } from '../signals/keys.ts';
import { company, mixed, until } from './company.ts';
import { kinds, type Kind } from './kinds.ts';

/** A share found in so many runs, with its 95 % interval by Wilson's score (from memory). */
export interface Share {
  found: number;
  runs: number;
  low: number;
  high: number;
}

export function share(found: number, runs: number): Share {
  const z = 1.959964;
  const middle = (found + (z * z) / 2) / (runs + z * z);
  const half = (z * Math.sqrt((found * (runs - found)) / runs + (z * z) / 4)) / (runs + z * z);
  return { found, runs, low: Math.max(0, middle - half), high: Math.min(1, middle + half) };
}

const looksAYear = 12;
const ratersOfACompany = 10;

export interface FalseAlarms {
  companies: number;
  raters: number;
  /** honest raters whose readings were told of at least once in the year */
  alarms: number;
  /** alarms per 20 honest raters and year */
  perTwenty: number;
  /** companies with any alarm in the year */
  years: Share;
  bySignal: Record<SignalKey, number>;
}

/** Honest companies over a year, looked at each month: how many raters are told of although they measured. */
export function falseAlarms(
  companies: number,
  seed: number,
  raters = 20,
  houses = 120,
  given = mixed,
): FalseAlarms {
  const bySignal = Object.fromEntries(signalKeys.map((key) => [key, 0])) as Record<SignalKey, number>;
  const level = levelOf(raters, looksAYear);
  let [alarms, years] = [0, 0];
  for (let run = 0; run < companies; run += 1) {
    const year = company(seed + run, raters, houses, { given });
    const told = new Set<string>();
    const signals = new Set<string>();
    for (let month = 1; month <= looksAYear; month += 1)
      for (const { raterId, signal } of findingsAt(level, look(until(month / looksAYear, year)))) {
        told.add(raterId);
        signals.add(`${signal} ${raterId}`);
      }
    for (const key of signals) bySignal[key.split(' ')[0] as SignalKey] += 1;
    alarms += told.size;
    if (told.size > 0) years += 1;
  }
  const perTwenty = (alarms / (companies * raters)) * 20;
  return { companies, raters, alarms, perTwenty, years: share(years, companies), bySignal };
}

export interface Power {
  kind: string;
  words: string;
  blind: Kind['blind'];
  /** runs in which the readings of such a rater were told of within the houses */
  found: Share;
  bySignal: Record<SignalKey, number>;
}

/** One dishonest rater among nine honest ones over a year of so many houses each, looked at every month. */
export function power(kind: string, runs: number, seed: number, houses = 30): Power {
  const { words, blind } = kinds[kind]!;
  const bySignal = Object.fromEntries(signalKeys.map((key) => [key, 0])) as Record<SignalKey, number>;
  const level = levelOf(ratersOfACompany, looksAYear);
  let found = 0;
  for (let run = 0; run < runs; run += 1) {
    const year = company(seed + run, ratersOfACompany, houses, { first: kinds[kind] });
    // The last look sees most; the earlier ones are asked only when it sees nothing.
    for (let month = looksAYear; month >= 1; month -= 1) {
      const told = findingsAt(level, look(until(month / looksAYear, year))).filter(
        ({ raterId }) => raterId === 'rater-0',
      );
      for (const { signal } of told) bySignal[signal] += 1;
      if (told.length === 0) continue;
      found += 1;
      break;
    }
  }
  return { kind, words, blind, found: share(found, runs), bySignal };
}

export const kindKeys = Object.keys(kinds);
