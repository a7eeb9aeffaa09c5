import { batchAfter, BatchRefusal, type BatchEvent } from '@countercheck/sampling';
import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { AppError } from '../../../kernel/problems/app-error.ts';
import { stateOf, type BatchRow } from './parts.ts';

/** Adds what happened to a batch's record, where its rules allow it, with the houses that come in by it. */
export async function addBatchEvent(
  db: Db,
  actor: UserActor,
  row: BatchRow,
  event: BatchEvent,
  seed: string | null = null,
): Promise<void> {
  const { rules, state } = stateOf(row);
  try {
    batchAfter(rules, state, event);
  } catch (error) {
    if (error instanceof BatchRefusal) throw new AppError('batch-rule', error.message);
    throw error;
  }
  const named = event.kind === 'set-opened' ? [...event.houseIds] : [event.houseId];
  const known = await db.batchHouse.findMany({ where: { houseId: { in: named } } });
  if (known.some(({ batchId }) => batchId !== row.id))
    throw new AppError('batch-rule', 'A house is in one batch only; one of these is in another.');
  const ids = new Set(known.map(({ houseId }) => houseId));
  const coming = named.filter((id) => !ids.has(id)).map((houseId) => ({ houseId, batchId: row.id }));
  if (coming.length > 0) await db.batchHouse.createMany({ data: coming });
  await db.batchEvent.create({
    data: {
      ...{ batchId: row.id, sequence: row.events.length + 1, kind: event.kind, seed },
      ...(event.kind === 'set-opened'
        ? { houseIds: [...event.houseIds] }
        : { houseId: event.houseId, passed: event.passed }),
      ...{ byName: actor.name, byId: actor.id },
    },
  });
}
