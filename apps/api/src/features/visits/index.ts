import type { FastifyInstance } from 'fastify';
import { bookVisits } from './book.ts';
import { cancelVisits } from './cancel.ts';
import { keepMoving } from './move.ts';
import { readVisits } from './read.ts';

export { bookVisit } from './book.ts';
export { type Move, moveVisits } from './move.ts';
export { startOfDay } from './days.ts';
export { followVisit } from './requests/follow.ts';
export { openVisitRequest } from './requests/open.ts';
export { stageWhenCancelled } from './stages.ts';
export { presentVisit, visitParts, type VisitRow } from './present.ts';

/** Who measures which house when. */
export async function visitsFeature(app: FastifyInstance): Promise<void> {
  readVisits(app);
  bookVisits(app);
  keepMoving(app);
  cancelVisits(app);
}
