import type { FastifyInstance } from 'fastify';
import { buildersFeature } from './builders/index.ts';
import { ruleSetsFeature } from './rule-sets/index.ts';
import { sessionFeature } from './session/index.ts';

/** One folder a feature; each registers the routes of its contract. */
export async function features(app: FastifyInstance): Promise<void> {
  await app.register(sessionFeature);
  await app.register(ruleSetsFeature);
  await app.register(buildersFeature);
}
