import { visitEffort, type HouseFile } from '@countercheck/assessment';
import type { Scorecard } from '@countercheck/rules';
import type { Actor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';

/**
 * What is asked for and not booked yet takes as long and needs as much as the house now says, unless somebody set the
 * minutes: a house may have grown since, or a visit may have settled part of it.
 */
export async function keepRequestEffort(
  db: Db,
  actor: Actor,
  requestId: string | null,
  { houseId, scorecard, file }: { houseId: string; scorecard: Scorecard; file: HouseFile },
): Promise<void> {
  const open = await db.visitRequest.findMany({ where: { houseId, state: 'open', minutesGiven: false } });
  for (const row of open) {
    const { minutes, instruments, qualifications } = visitEffort(scorecard, file, row.kind);
    const needs = { instruments, qualifications };
    if (minutes === row.minutes && JSON.stringify(needs) === JSON.stringify(row.needs)) continue;
    await db.visitRequest.update({ where: { id: row.id }, data: { minutes, needs } });
    await record(db, actor, requestId, {
      action: 'visit request changed',
      recordType: 'visit request',
      recordId: row.id,
      houseId,
      before: { minutes: row.minutes, needs: row.needs },
      after: { minutes, needs },
      reason: 'The items that apply to the house changed.',
    });
  }
}
