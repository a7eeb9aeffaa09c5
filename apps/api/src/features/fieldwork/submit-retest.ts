import { testDefinitions } from '@countercheck/measurement';
import { subjectsOf } from '@countercheck/assessment';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { refuseFirstRater, takeUpRetest } from '../booking-rules/index.ts';
import { finishRetest, secondMeasurement } from '../retests/index.ts';
import { followVisit, type VisitRow } from '../visits/index.ts';
import { stopWorkOf, tellOfficeOfStop } from './tell.ts';

/** Submits a second measurement: it is compared, and nothing in the house is judged anew by it. */
export async function submitRetest(
  db: Db,
  actor: UserActor,
  requestId: string,
  visit: VisitRow,
  { note, acceptWaiting }: { note: string | null; acceptWaiting: boolean },
  publicUrl: string,
): Promise<void> {
  // A visit beside the first one was booked before there was anything to measure again.
  const standing = await db.retest.findUnique({ where: { visitId: visit.id }, select: { id: true } });
  if (standing) await refuseFirstRater(db, visit);
  else await takeUpRetest(db, actor, requestId, visit);
  const second = await secondMeasurement(db, visit);
  const labels = new Map(subjectsOf(second.file).map(({ id, label }) => [id, label]));
  const waiting = second.missing.map(({ test, subjectId }) => ({
    path: `${test}/${subjectId}`,
    message: `${testDefinitions[test].title}, ${labels.get(subjectId) ?? subjectId}: not measured again.`,
  }));
  const nothing = waiting.length > 0 && waiting.length === second.scope.length;
  if (waiting.length > 0 && (nothing || !acceptWaiting))
    throw new AppError('visit-not-complete', waiting.map(({ message }) => message).join(' '), waiting);
  const submittedAt = new Date();
  await db.visit.update({
    where: { id: visit.id },
    data: { state: 'submitted', submittedAt, note: note ?? visit.note },
  });
  const stopWork = stopWorkOf(second.verdicts);
  await record(db, actor, requestId, {
    action: 'visit submitted',
    recordType: 'visit',
    recordId: visit.id,
    houseId: visit.houseId,
    before: { state: visit.state },
    after: { state: 'submitted', waiting: waiting.map(({ message }) => message), stopWork },
    reason: note,
  });
  await followVisit(db, visit.id, 'submitted');
  await finishRetest(db, actor, requestId, visit, second, publicUrl);
  await tellOfficeOfStop(db, visit, stopWork);
}
