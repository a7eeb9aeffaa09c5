import type { FastifyInstance } from 'fastify';
import { showDifferences } from './differences.ts';
import { readRetests } from './read.ts';

export { finishRetest } from './finish.ts';
export { orderRetests, type Ordered, type RetestOrder } from './order.ts';
export { presentQualityHouse, qualityHouse } from './present-house.ts';
export { secondMeasurement } from './second-measurement.ts';

/** Houses measured a second time by another rater, and how far the two lie apart. */
export async function retestsFeature(app: FastifyInstance): Promise<void> {
  showDifferences(app);
  readRetests(app);
}
