import type { FastifyInstance } from 'fastify';
import { readVisits } from './read.ts';

export { presentVisit, visitParts, type VisitRow } from './present.ts';

/** Who measures which house when. */
export async function visitsFeature(app: FastifyInstance): Promise<void> {
  readVisits(app);
}
