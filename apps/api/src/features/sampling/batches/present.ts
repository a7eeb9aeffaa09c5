import type { Batch, BatchRulesRow, BatchSummary } from '@countercheck/contracts';
import { neededIn, whyNoSet, type BatchRule, type BatchRules } from '@countercheck/sampling';
import type { Db } from '../../../kernel/database/database.ts';
import { firstResults } from './house-result.ts';
import { stateOf, type BatchRow } from './parts.ts';

export function presentRules({ key, title, ...rules }: BatchRules): BatchRulesRow {
  const named = Object.entries(rules as Record<string, BatchRule>);
  return { key, title, rules: named.map(([name, rule]) => ({ name, ...rule })) };
}

export function presentBatchSummary(row: BatchRow): BatchSummary {
  const { id, title, builder, community, plan, trades, openedAt } = row;
  const { rules, state } = stateOf(row);
  const inSets = state.sets.flatMap(({ houses }) => houses);
  return {
    ...{ id, title, trades, openedAt: openedAt.toISOString(), rules: rules.title, phase: state.phase },
    ...{ builder: builder.name, community: community.name, plan: plan?.name ?? null },
    houses: state.singles.length + inSets.length,
    tested: state.singles.length + inSets.filter(({ result }) => result !== null).length,
    sets: state.sets.length,
    setsFailed: state.sets.filter((set) => set.state === 'failed').length,
  };
}

type Place = { id: string; address: string; lot: string };

function eventWords(event: BatchRow['events'][number], places: ReadonlyMap<string, Place>): string {
  const house = event.houseId && places.get(event.houseId);
  const where = house ? `${house.address}, lot ${house.lot}` : '';
  if (event.kind === 'set-opened') return `Set opened with ${event.houseIds.length} houses`;
  if (event.kind === 'retested')
    return `${where}: ${event.passed ? 'corrected, passed when tested again' : 'tested again, still fails'}`;
  return `${where}: ${event.passed ? 'passed' : 'failed'}`;
}

async function candidatesOf(db: Db, { builderId, communityId, planId, openedAt }: BatchRow) {
  const rows = await db.house.findMany({
    where: { builderId, communityId, ...(planId ? { planId } : {}), batchHouse: null },
    select: { id: true, address: true, lot: true },
    orderBy: { lot: 'asc' },
    take: 500,
  });
  const results = await firstResults(
    db,
    rows.map(({ id }) => id),
  );
  return rows.map((row) => {
    const { readiness = 'not-tested' as const, at = null } = results.get(row.id) ?? {};
    return { ...row, readiness: at !== null && at < openedAt ? ('before' as const) : readiness };
  });
}

export async function presentBatch(db: Db, row: BatchRow): Promise<Batch> {
  const { rules, state } = stateOf(row);
  const inBatch = await db.house.findMany({
    where: { batchHouse: { batchId: row.id } },
    select: { id: true, address: true, lot: true },
  });
  const places = new Map(inBatch.map((house) => [house.id, house]));
  const place = (id: string) => places.get(id) ?? { id, address: id, lot: '–' };
  const seeds = row.events.flatMap(({ kind, seed }) => (kind === 'set-opened' ? [seed ?? ''] : []));
  return {
    ...presentBatchSummary(row),
    openedBy: row.openedBy,
    ruleSet: presentRules(rules),
    inRow: state.inRow,
    needed: neededIn(rules, state.phase),
    testedInPhase: state.tested,
    whyNoSet: whyNoSet(rules, state),
    singles: state.singles.map(({ houseId, result }) => ({ house: place(houseId), result })),
    setList: state.sets.map(({ number, state: set, houses, history }, at) => ({
      ...{ number, state: set, history, seed: seeds[at] ?? '' },
      houses: houses.map(({ houseId, result, chosen }) => ({ house: place(houseId), result, chosen })),
    })),
    events: row.events.map((event) => ({
      ...{ sequence: event.sequence, at: event.at.toISOString(), by: event.byName },
      words: eventWords(event, places),
    })),
    candidates: await candidatesOf(db, row),
  };
}
