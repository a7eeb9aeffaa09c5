import { subjectsOf, type HouseFile } from '@countercheck/assessment';
import { testDefinitions } from '@countercheck/measurement';
import type { readingBody } from '@countercheck/contracts';
import type * as z from 'zod';
import type { Db } from '../../kernel/database/database.ts';
import { AppError, invalid, type FieldProblem } from '../../kernel/problems/app-error.ts';
import { calibrationOn, companyOptions, dayAt, instrumentFacts } from '../assessment/index.ts';
import type { VisitRow } from '../visits/index.ts';
import { enteredProblems } from './entered.ts';

type Body = z.output<typeof readingBody>;

const clockSkewMs = 10 * 60_000;
const dayMs = 24 * 3_600_000;

/** The earliest time for which the visit ever was booked: a phone away may not know that it was moved since. */
async function firstPlanned(db: Db, visit: VisitRow): Promise<number> {
  const moved = await db.event.findMany({
    where: { recordType: 'visit', recordId: visit.id, action: 'visit moved' },
    select: { before: true },
  });
  const starts = moved.map(({ before }) => Date.parse((before as { startsAt: string }).startsAt));
  return Math.min(visit.startsAt.getTime(), ...starts);
}

/**
 * A device's clock may be a little off; a reading of tomorrow is invented. So is one from days before the visit: dated
 * back, it could lie in a calibration that has ended. Who comes earlier than booked sends it on the day.
 */
async function checkTime(db: Db, takenAt: Date, visit: VisitRow): Promise<void> {
  const now = Date.now();
  if (takenAt.getTime() > now + clockSkewMs)
    throw invalid('takenAt', 'This time lies in the future. Check the clock of the device.');
  if (takenAt.getTime() < Math.min(now, await firstPlanned(db, visit)) - dayMs)
    throw invalid('takenAt', 'This time lies before the visit. Check the clock of the device.');
}

function checkSubject({ test, subjectId }: Body, file: HouseFile): void {
  const wanted = testDefinitions[test].subject;
  const subject = subjectsOf(file).find(({ id }) => id === subjectId);
  if (!subject) throw invalid('subjectId', "The house's file lists no such part.");
  if (subject.kind !== wanted)
    throw invalid(
      'subjectId',
      `${testDefinitions[test].title} is done on a ${wanted}, not on a ${subject.kind}.`,
    );
}

async function instrumentOf(db: Db, body: Body) {
  if (body.instrumentId === null) return null;
  const row = await db.instrument.findUnique({
    where: { id: body.instrumentId },
    include: { calibrations: true },
  });
  if (!row) throw invalid('instrumentId', 'There is no such instrument.');
  if (!row.active) throw invalid('instrumentId', `${row.label} is out of service.`);
  return row;
}

/** The path in the form of a problem that the test's definition found in the raw reading. */
const formPath = (path: string) =>
  path === 'instrument' ? 'instrumentId' : path === 'subject' ? 'subjectId' : `raw.${path}`;

/**
 * Refuses what cannot have been read, naming each field in words. An instrument out of calibration is not
 * refused: the reading was taken, it is kept, and its verdict waits.
 */
export async function checkReading(
  db: Db,
  visit: VisitRow,
  body: Body,
  file: HouseFile,
): Promise<{ calibrationId: string | null }> {
  const takenAt = new Date(body.takenAt);
  await checkTime(db, takenAt, visit);
  checkSubject(body, file);
  const day = dayAt(takenAt, (await companyOptions(db)).timezone);
  const instrument = await instrumentOf(db, body);
  const outcome = testDefinitions[body.test].compute(
    body.raw,
    instrument && instrumentFacts(instrument, day),
  );
  const problems: FieldProblem[] = outcome.ok
    ? []
    : outcome.problems.map(({ path, message }) => ({ path: formPath(path), message }));
  problems.push(...enteredProblems(body));
  if (problems.length > 0) throw new AppError('invalid-input', undefined, problems);
  return { calibrationId: (instrument && calibrationOn(instrument, day)?.id) ?? null };
}
