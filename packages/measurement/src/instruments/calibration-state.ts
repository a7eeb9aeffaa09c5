import { instrumentWords } from '../entry/instrument-problem.ts';
import type { InstrumentFacts, InstrumentKind, TestDefinition } from '../types.ts';

export interface CalibrationState {
  /** whether a reading taken with the instrument on that day counts */
  counts: boolean;
  /** one sentence for people */
  words: string;
}

/** Kinds whose readings count without a calibration record: common practice, no published source. */
export const kindsWithoutCalibration: readonly InstrumentKind[] = ['tape-measure', 'stopwatch'];

const isoDate = /^\d{4}-\d{2}-\d{2}$/;

/**
 * Whether a reading taken with an instrument on a calendar date at the house counts.
 * It counts from the day of calibration to the due day, both included. It does not count without a
 * calibration or a due date, before the calibration, after the due date, or when a date cannot be read. Kinds
 * in `kindsWithoutCalibration` always count.
 * @param takenOn ISO date, yyyy-mm-dd; dates compare as texts, so no time zone enters
 * Source: common practice, no published source. Never throws.
 */
export function calibrationState(instrument: InstrumentFacts, takenOn: string): CalibrationState {
  const { kind, label, calibratedOn, dueOn } = instrument;
  if (kindsWithoutCalibration.includes(kind)) {
    return { counts: true, words: `A ${instrumentWords(kind)} needs no calibration record.` };
  }
  const not = (words: string) => ({ counts: false, words: `${label} ${words}; the reading does not count.` });
  if (!isoDate.test(takenOn)) return not(`was used on an unreadable date (${takenOn})`);
  if (calibratedOn === null || !isoDate.test(calibratedOn)) return not(`had no calibration on ${takenOn}`);
  if (dueOn === null || !isoDate.test(dueOn)) return not(`has no date on which its calibration was due`);
  if (takenOn < calibratedOn) return not(`was used on ${takenOn}, before its calibration of ${calibratedOn}`);
  if (takenOn > dueOn) return not(`was used on ${takenOn}, after its calibration was due on ${dueOn}`);
  return { counts: true, words: `${label} was calibrated on ${calibratedOn}, due on ${dueOn}.` };
}

/**
 * As `calibrationState`, for a reading of a given test: a test that needs no instrument counts without one,
 * any other test does not. Never throws.
 */
export function calibrationStateFor(
  test: Pick<TestDefinition, 'instrumentRequired'>,
  instrument: InstrumentFacts | null,
  takenOn: string,
): CalibrationState {
  if (instrument) return calibrationState(instrument, takenOn);
  if (!test.instrumentRequired) return { counts: true, words: 'This test needs no calibrated instrument.' };
  return { counts: false, words: 'No instrument is recorded; the reading does not count.' };
}
