import type { HouseStage, Visit } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';

/** A quality visit leaves a house where it stands, and so does another visit while one is going on. */
export function stageWhenBooked(stage: HouseStage, kind: Visit['kind']): HouseStage {
  return kind === 'quality' || stage === 'in_testing' ? stage : 'booked';
}

/** Where a house goes back to when the visit it was booked for falls away. */
export async function stageWhenCancelled(
  db: Db,
  house: { id: string; stage: HouseStage },
): Promise<HouseStage> {
  if (house.stage !== 'booked') return house.stage;
  const where = { houseId: house.id };
  const others = await db.visit.count({
    where: { ...where, kind: { not: 'quality' }, state: { in: ['booked', 'in_progress'] } },
  });
  if (others > 0) return 'booked';
  if ((await db.reinspectionRequest.count({ where: { ...where, state: 'asked' } })) > 0)
    return 'reinspection_asked';
  if ((await db.failedItem.count({ where: { ...where, state: { not: 'closed' } } })) > 0)
    return 'corrections';
  const moved = await db.event.findFirst({
    where: { ...where, action: 'stage changed', after: { path: ['stage'], equals: 'booked' } },
    orderBy: { id: 'desc' },
  });
  const before = (moved?.before as { stage?: HouseStage } | null)?.stage;
  if (before === 'in_review' || before === 'returned') return before;
  const signed = await db.installerSubmission.count({ where });
  return signed > 0 ? 'ready_to_book' : 'awaiting_figures';
}
