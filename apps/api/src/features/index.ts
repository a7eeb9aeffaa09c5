import type { FastifyInstance } from 'fastify';
import { buildersFeature } from './builders/index.ts';

/** One folder a feature; each registers the routes of its contract. */
export async function features(app: FastifyInstance): Promise<void> {
  await app.register(buildersFeature);
}
