import type { FastifyInstance } from 'fastify';
import { health } from './health.ts';
import { overview } from './overview.ts';

/** Whether the service runs, and how much there is to do. */
export async function serviceFeature(app: FastifyInstance): Promise<void> {
  health(app);
  overview(app);
}
