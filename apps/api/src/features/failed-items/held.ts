import type { Db } from '../../kernel/database/database.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { failedItemParts } from './present.ts';

/** The failed item, held until this transaction ends, so that a correction and a reinspection do not cross. */
export async function heldItem(db: Db, id: string) {
  await db.$queryRaw`SELECT id FROM failed_items WHERE id = ${id}::uuid FOR UPDATE`;
  return found(await db.failedItem.findUnique({ where: { id }, include: failedItemParts }), 'failed item');
}
