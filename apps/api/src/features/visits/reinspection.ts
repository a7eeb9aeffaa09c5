import { itemsToRevisit } from '@countercheck/assessment';
import type { Db } from '../../kernel/database/database.ts';
import { AppError, invalid } from '../../kernel/problems/app-error.ts';
import { assessHouse } from '../assessment/index.ts';

/** What comes up at a reinspection, as it stands when it is booked. */
export async function reinspectionScope(
  db: Db,
  houseId: string,
): Promise<{ item: string; subjectId: string }[]> {
  const { scorecard } = await assessHouse(db, houseId);
  const scope = itemsToRevisit(scorecard).map(({ item, subjectId }) => ({ item, subjectId }));
  if (scope.length === 0)
    throw invalid('kind', 'Nothing has failed in this house that could be looked at again.');
  return scope;
}

/** The builder's request that a reinspection answers: the one named, or the one that waits. */
export async function answerRequest(
  db: Db,
  houseId: string,
  visitId: string,
  requestId: string | null,
): Promise<void> {
  const waiting = await db.reinspectionRequest.findFirst({
    where: { houseId, state: 'asked', ...(requestId ? { id: requestId } : {}) },
    orderBy: { askedAt: 'desc' },
  });
  if (!waiting) {
    if (requestId) throw new AppError('conflict', 'This request was booked or withdrawn meanwhile.');
    return;
  }
  await db.reinspectionRequest.update({ where: { id: waiting.id }, data: { state: 'booked', visitId } });
}

/** A visit that falls away leaves the request asked for, as before. */
export async function askAgain(db: Db, visitId: string): Promise<void> {
  await db.reinspectionRequest.updateMany({
    where: { visitId, state: 'booked' },
    data: { state: 'asked', visitId: null },
  });
}
