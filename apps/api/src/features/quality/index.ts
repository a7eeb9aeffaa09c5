import type { FastifyInstance } from 'fastify';
import { keepEvidence } from './corrective/evidence.ts';
import { keepHolds } from './corrective/holds.ts';
import { keepActions } from './corrective/keep.ts';
import { finishReviews } from './file-reviews/finish.ts';
import { markReviews } from './file-reviews/mark.ts';
import { readFileReviews } from './file-reviews/read.ts';
import { respondToFindings } from './file-reviews/respond.ts';
import { takeReviews } from './file-reviews/take.ts';

export { heldRaters, refuseHeldRater } from '../booking-rules/index.ts';
export { orderRetests } from '../retests/index.ts';
export { orderFileReviews } from '../second-looks/index.ts';

/** The quality manager's desk: files looked at a second time, what is done about what was found, and who is held. */
export async function qualityFeature(app: FastifyInstance): Promise<void> {
  readFileReviews(app);
  takeReviews(app);
  markReviews(app);
  finishReviews(app);
  respondToFindings(app);
  keepActions(app);
  keepEvidence(app);
  keepHolds(app);
}
