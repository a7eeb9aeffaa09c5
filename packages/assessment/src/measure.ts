import {
  calibrationStateFor,
  testDefinitions,
  type MeasuredValue,
  type Problem,
  type Step,
  type TestKey,
} from '@countercheck/measurement';
import { subjectsOf, type Subject } from './subjects.ts';
import type { FileReading, HouseFile } from './types.ts';

/** What one raw reading gave, for the person who took it. */
export interface ReadingOutcome {
  readingId: string;
  test: TestKey;
  subjectId: string;
  /** ISO date at the house */
  takenOn: string;
  /** the instant, ISO 8601 in UTC, where the file tells it */
  takenAt?: string | undefined;
  instrumentId: string | null;
  values: MeasuredValue[];
  steps: Step[];
  remarks: string[];
  /** why it could not be computed; empty when it could */
  problems: Problem[];
  /** false when it could not be computed, or its instrument was out of calibration on the day */
  counts: boolean;
  whyNot: string | null;
  /** the revision of the installer's figures that it was read against, where that matters */
  figuresRevision?: number | undefined;
}

function misplaced(reading: FileReading, subjects: readonly Subject[]): string | null {
  const subject = subjects.find((each) => each.id === reading.subjectId);
  if (!subject) return 'The house’s file no longer lists what this reading was taken on.';
  const wanted = testDefinitions[reading.test].subject;
  return subject.kind === wanted ? null : `This test is done on a ${wanted}, not on a ${subject.kind}.`;
}

/**
 * A reading that lacks nothing but a tick does not count, yet its number is kept: carbon monoxide in a room
 * stops the work whether or not somebody ticked a box.
 */
function unconfirmed(
  { test, raw, instrument }: FileReading,
  problems: Problem[],
  base: Pick<
    ReadingOutcome,
    'readingId' | 'test' | 'subjectId' | 'takenOn' | 'takenAt' | 'instrumentId' | 'figuresRevision'
  >,
): ReadingOutcome | null {
  if (!problems.every((each) => each.code === 'not-confirmed')) return null;
  const definition = testDefinitions[test];
  const confirmations = Object.fromEntries(definition.confirmations.map((each) => [each.key, true]));
  const outcome = definition.compute({ ...raw, confirmations }, instrument);
  if (!outcome.ok) return null;
  const { values, steps, remarks } = outcome;
  const whyNot = problems.map((each) => each.message).join(' ');
  return { ...base, values, steps, remarks, problems, counts: false, whyNot };
}

function measureOne(reading: FileReading, subjects: readonly Subject[]): ReadingOutcome {
  const { id: readingId, test, subjectId, takenOn, instrument } = reading;
  const definition = testDefinitions[test];
  const { figuresRevision, takenAt } = reading;
  const base = {
    ...{ readingId, test, subjectId, takenOn, instrumentId: instrument?.id ?? null },
    ...(takenAt === undefined ? {} : { takenAt }),
    ...(figuresRevision === undefined ? {} : { figuresRevision }),
  };
  const refuse = (problems: Problem[]): ReadingOutcome => ({
    ...base,
    values: [],
    steps: [],
    remarks: [],
    problems,
    counts: false,
    whyNot: problems.map((each) => each.message).join(' '),
  });
  const wrong = misplaced(reading, subjects);
  if (wrong) return refuse([{ path: 'subject', code: 'wrong-subject', message: wrong }]);
  const outcome = definition.compute(reading.raw, instrument);
  if (!outcome.ok) return unconfirmed(reading, outcome.problems, base) ?? refuse(outcome.problems);
  const state = calibrationStateFor(definition, instrument, takenOn);
  const { values, steps, remarks } = outcome;
  return {
    ...base,
    values,
    steps,
    remarks,
    problems: [],
    counts: state.counts,
    whyNot: state.counts ? null : state.words,
  };
}

/**
 * Computes every reading of a file and says whether it counts, in the order of the file. Values are in
 * stored units. Never throws: a reading that cannot be used carries its problems.
 */
export function measureReadings(file: HouseFile): ReadingOutcome[] {
  const subjects = subjectsOf(file);
  return file.readings.map((reading) => measureOne(reading, subjects));
}

/** Newest first; of one instant the later id first, so that the result does not hang on the order of the file. */
function newestFirst(a: ReadingOutcome, b: ReadingOutcome): number {
  return (
    b.takenOn.localeCompare(a.takenOn) ||
    (b.takenAt ?? '').localeCompare(a.takenAt ?? '') ||
    b.readingId.localeCompare(a.readingId)
  );
}

/** Of several readings of one test on one subject the newest that counts, or the newest when none does. */
export function governing(outcomes: readonly ReadingOutcome[]): ReadingOutcome | null {
  const later = (a: ReadingOutcome, b: ReadingOutcome) =>
    a.counts !== b.counts ? Number(b.counts) - Number(a.counts) : newestFirst(a, b);
  return [...outcomes].sort(later)[0] ?? null;
}

/** The newest reading where it is not the governing one: it does not count, and what it shows is still known. */
export function newerThanGoverning(outcomes: readonly ReadingOutcome[]): ReadingOutcome | null {
  const newest = [...outcomes].sort(newestFirst)[0] ?? null;
  return newest === governing(outcomes) ? null : newest;
}
