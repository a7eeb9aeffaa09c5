import type { ItemVerdict, Scorecard } from '@countercheck/rules';
import type { Actor } from '../../kernel/actor.ts';
import { asSystem } from '../../kernel/database/as-system.ts';
import type { Db } from '../../kernel/database/database.ts';
import { record, type EventEntry } from '../../kernel/records/events.ts';
import { assessHouse } from './assess-house.ts';
import { keepFacts } from './facts.ts';
import { asStored, verdictChanges, verdictKey, type VerdictChange } from './stored-verdicts.ts';

function eventOf(houseId: string, { stored, verdict }: VerdictChange): EventEntry | null {
  if (stored?.status === verdict?.status) return null;
  const said = (status: string, reason: string) => ({ status, reason });
  const either = verdict ?? stored!;
  return {
    action: 'verdict changed',
    recordType: 'item',
    recordId: verdictKey(either),
    houseId,
    before: stored && said(stored.status, stored.reason),
    after: verdict && said(verdict.status, verdict.reason),
    reason: verdict?.reason ?? 'The house has no such item any more.',
  };
}

const rowOf = (houseId: string, verdict: ItemVerdict) => ({
  houseId,
  item: verdict.item,
  subjectId: verdict.subjectId,
  status: verdict.status,
  reason: verdict.reason,
  verdict: asStored(verdict),
});

/**
 * Computes every verdict of a house again from the raw readings and stores what changed, in the transaction
 * of the change that made it necessary. A released file is sealed, so nothing of it is touched.
 */
export async function reassess(
  db: Db,
  actor: Actor,
  requestId: string | null,
  houseId: string,
): Promise<Scorecard> {
  return asSystem(db, actor, async () => {
    // Two changes at once would each store verdicts without the other's reading.
    await db.$queryRaw`SELECT id FROM houses WHERE id = ${houseId}::uuid FOR UPDATE`;
    const { scorecard, file } = await assessHouse(db, houseId);
    const { stage } = await db.house.findUniqueOrThrow({ where: { id: houseId }, select: { stage: true } });
    if (stage === 'released') return scorecard;
    await keepFacts(db, houseId, file);
    const stored = await db.itemResult.findMany({ where: { houseId } });
    const changes = verdictChanges(stored, scorecard.verdicts);
    if (changes.length === 0) return scorecard;
    await db.itemResult.deleteMany({
      where: { id: { in: changes.flatMap((each) => each.stored?.id ?? []) } },
    });
    await db.itemResult.createMany({
      data: changes.flatMap(({ verdict }) => (verdict ? [rowOf(houseId, verdict)] : [])),
    });
    // The first assessment of a house tells only what was measured, not that everything waits.
    const told = changes.filter(
      ({ verdict }) => stored.length > 0 || verdict?.status === 'pass' || verdict?.status === 'fail',
    );
    const events = told.flatMap((each) => eventOf(houseId, each) ?? []);
    if (events.length > 0) await record(db, actor, requestId, ...events);
    return scorecard;
  });
}
