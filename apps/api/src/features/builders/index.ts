import type { FastifyInstance } from 'fastify';
import { keepBuilders } from './keep-builders.ts';
import { keepCommunities } from './keep-communities.ts';
import { keepPlans } from './keep-plans.ts';
import { readBuilders } from './read.ts';

/** The companies that build, their contacts, communities and plans. */
export async function buildersFeature(app: FastifyInstance): Promise<void> {
  readBuilders(app);
  keepBuilders(app);
  keepCommunities(app);
  keepPlans(app);
}
