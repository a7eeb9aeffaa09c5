const day = 86_400_000;
const month = 365.25 / 12;

/** One rater's obligation of one kind over a period. Days are ISO 8601 and count whole. */
export interface ObligationInput {
  /** first and last day of the period */
  from: string;
  to: string;
  /** the day up to which things are counted */
  today: string;
  /** the rater's files of the period so far */
  files: number;
  /** reviews or re-tests of the period done so far */
  done: number;
  /** hundredths of a percent */
  share: number;
  minimum: number;
}

/** What is due, what is missing, and what the rest of the period needs. Counts of files or houses. */
export interface ObligationMeter {
  /** owed for the files so far */
  due: number;
  done: number;
  /** owed and not done */
  behind: number;
  /** files by the end of the period at the pace so far */
  expectedFiles: number;
  dueByEnd: number;
  /** still to be done until the end at that pace */
  stillToDo: number;
  /** to be done per month (30.4 days) from now on; null on the last day */
  neededPerMonth: number | null;
  /** done per month so far */
  donePerMonth: number;
  /** how many would be missing at the end if nothing changed */
  shortAtEnd: number;
}

const days = (from: string, to: string) => Math.round((Date.parse(to) - Date.parse(from)) / day);

/** A share of files rounded up, at least the minimum where there is any file at all. Never throws. */
export const owed = (files: number, share: number, minimum: number): number =>
  files <= 0 ? 0 : Math.min(files, Math.max(minimum, Math.ceil((files * share) / 10_000)));

/**
 * Where an obligation stands. Nothing is owed without files; the minimum is never more than the files there are. The
 * pace is that of the days gone by, the first and the present one counted. Throws RangeError for days that are none or
 * a period that ends before it begins; a day outside of the period is taken as its first or last.
 */
export function obligationMeter(input: ObligationInput): ObligationMeter {
  const { from, to, files, done, share, minimum } = input;
  const length = days(from, to) + 1;
  if (!(length >= 1) || Number.isNaN(Date.parse(input.today)))
    throw new RangeError('A period ends on or after the day it begins.');
  const gone = Math.min(length, Math.max(1, days(from, input.today) + 1));
  const left = length - gone;
  const pace = length / gone;
  const expectedFiles = Math.round(files * pace);
  const dueByEnd = owed(expectedFiles, share, minimum);
  const stillToDo = Math.max(0, dueByEnd - done);
  const due = owed(files, share, minimum);
  return {
    ...{ due, done, behind: Math.max(0, due - done), expectedFiles, dueByEnd, stillToDo },
    neededPerMonth: left === 0 ? null : (stillToDo / left) * month,
    donePerMonth: (done / gone) * month,
    shortAtEnd: Math.max(0, dueByEnd - Math.floor(done * pace)),
  };
}
