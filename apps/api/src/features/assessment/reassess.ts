import { assess } from '@countercheck/assessment';
import type { ItemVerdict, Scorecard } from '@countercheck/rules';
import type { Actor } from '../../kernel/actor.ts';
import { asSystem } from '../../kernel/database/as-system.ts';
import type { Db } from '../../kernel/database/database.ts';
import { record, type EventEntry } from '../../kernel/records/events.ts';
import { assessHouse } from './assess-house.ts';
import { keepFacts } from './facts.ts';
import { loadHouseFiles } from './load-file.ts';
import { keepRequestEffort } from './request-effort.ts';
import { compiledRuleSet } from './rule-set.ts';
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
 * The first verdicts of houses on which nothing was read yet, in few statements for all of them together. Houses that
 * have verdicts already, or readings, are left out. The houses are to be locked by the caller; what waits for a first
 * measurement is no event, so only verdicts that stand already are told. Gives the number of houses judged.
 */
export async function assessFirst(db: Db, actor: Actor, houseIds: readonly string[]): Promise<number> {
  const houses = await db.house.findMany({
    where: { id: { in: [...houseIds] }, itemResults: { none: {} }, readings: { none: {} } },
    select: { id: true, ruleSetId: true },
    orderBy: { id: 'asc' },
  });
  const files = await loadHouseFiles(
    db,
    houses.map(({ id }) => id),
  );
  const rows: ReturnType<typeof rowOf>[] = [];
  const events: EventEntry[] = [];
  for (const { id, ruleSetId } of houses) {
    const file = files.get(id)!;
    const { evaluate } = await compiledRuleSet(db, ruleSetId);
    const { verdicts } = assess(file, evaluate).scorecard;
    await keepFacts(db, id, file, []);
    rows.push(...verdicts.map((verdict) => rowOf(id, verdict)));
    const standing = verdicts.filter(({ status }) => status === 'pass' || status === 'fail');
    events.push(...standing.flatMap((verdict) => eventOf(id, { stored: null, verdict }) ?? []));
  }
  await db.itemResult.createMany({ data: rows });
  if (events.length > 0) await record(db, actor, null, ...events);
  return houses.length;
}

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
    await keepRequestEffort(db, actor, requestId, { houseId, scorecard, file });
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
