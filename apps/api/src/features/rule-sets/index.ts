import type { FastifyInstance } from 'fastify';
import { system } from '../../kernel/actor.ts';
import { publishRuleSets } from './publish.ts';
import { readRuleSets } from './read-sets.ts';
import { showRuleSets } from './show.ts';

export { currentCompany } from './company.ts';
export { ruleSetHash } from './hash.ts';
export { notYetInForce } from './in-force.ts';
export { publishRuleSets } from './publish.ts';
export { readRuleSets } from './read-sets.ts';

/** The published rule sets and the company that works by them. */
export async function ruleSetsFeature(app: FastifyInstance): Promise<void> {
  app.addHook('onReady', async () => {
    const sets = await readRuleSets(app.config.RULE_SETS_DIR);
    await app.database.as(system, (db) => publishRuleSets(db, sets));
  });
  showRuleSets(app);
}
