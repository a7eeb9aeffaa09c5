import type { Actor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';

/**
 * From the first reading on, the newest signed figures stay as they are: what was measured is compared with
 * what was reported before anybody measured. Nothing happens when none are signed, or some are frozen.
 * The caller holds the house, so that no signature comes in between.
 */
export async function freezeFigures(
  db: Db,
  actor: Actor,
  requestId: string | null,
  houseId: string,
): Promise<void> {
  const newest = await db.installerSubmission.findFirst({
    where: { houseId },
    orderBy: { revision: 'desc' },
  });
  if (!newest) return;
  if ((await db.installerSubmission.count({ where: { houseId, frozenAt: { not: null } } })) > 0) return;
  const frozenAt = new Date();
  await db.installerSubmission.update({ where: { id: newest.id }, data: { frozenAt } });
  await record(db, actor, requestId, {
    action: 'figures frozen',
    recordType: 'figures',
    recordId: newest.id,
    houseId,
    after: { revision: newest.revision, frozenAt },
  });
}
