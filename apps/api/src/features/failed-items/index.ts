import type { FastifyInstance } from 'fastify';
import { askReinspection } from './ask-reinspection.ts';
import { exportFailedItems } from './board/export.ts';
import { readFailedBoard } from './board/read.ts';
import { correctFailedItems } from './correct.ts';
import { readFailedItems } from './read.ts';
import { listRequests } from './requests.ts';

export { failedItemParts, presentFailedItem } from './present.ts';
export { settleFailedItems } from './settle.ts';
export { answeredSince, undoSettlement } from './undo.ts';

/** What failed, what was done about it, and when it is looked at again. */
export async function failedItemsFeature(app: FastifyInstance): Promise<void> {
  readFailedItems(app);
  readFailedBoard(app);
  exportFailedItems(app);
  correctFailedItems(app);
  askReinspection(app);
  listRequests(app);
}
