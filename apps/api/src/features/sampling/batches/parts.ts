import type { Prisma } from '@countercheck/prisma';
import {
  batchRulesOf,
  batchState,
  type BatchEvent,
  type BatchRules,
  type BatchState,
} from '@countercheck/sampling';
import type { Db } from '../../../kernel/database/database.ts';
import { found } from '../../../kernel/problems/app-error.ts';

const name = { select: { name: true } };
export const batchParts = {
  builder: name,
  community: name,
  plan: name,
  events: { orderBy: { sequence: 'asc' } },
} satisfies Prisma.BatchInclude;
export type BatchRow = Prisma.BatchGetPayload<{ include: typeof batchParts }>;

export const findBatch = async (db: Db, id: string): Promise<BatchRow> =>
  found(await db.batch.findUnique({ where: { id }, include: batchParts }), 'batch');

function eventOf(row: BatchRow['events'][number]): BatchEvent {
  if (row.kind === 'set-opened') return { kind: 'set-opened', houseIds: row.houseIds };
  const kind = row.kind === 'retested' ? 'retested' : 'tested';
  return { kind, houseId: row.houseId!, passed: row.passed! };
}

/** A batch's state, worked out from its whole record each time. */
export function stateOf(row: BatchRow): { rules: BatchRules; state: BatchState } {
  const rules = batchRulesOf(row.rulesKey);
  return { rules, state: batchState(rules, row.events.map(eventOf)) };
}
