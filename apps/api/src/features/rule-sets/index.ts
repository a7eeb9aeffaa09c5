import type { FastifyInstance } from 'fastify';
import { system } from '../../kernel/actor.ts';
import { ensureCompany } from './company.ts';

export { currentCompany } from './company.ts';

/** The published rule sets and the company that works by them. */
export async function ruleSetsFeature(app: FastifyInstance): Promise<void> {
  app.addHook('onReady', () => app.database.as(system, ensureCompany));
}
