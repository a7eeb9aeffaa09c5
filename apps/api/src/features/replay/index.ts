import type { FastifyInstance } from 'fastify';
import { startRunner } from '../../kernel/runs/runner.ts';
import { askReplays } from './ask.ts';
import { readReplays } from './read.ts';
import { replayWork } from './work.ts';

export { fillMissingFacts } from './work.ts';

/** Other rules over past houses, which stay as they are. */
export async function replayFeature(app: FastifyInstance): Promise<void> {
  const runner = startRunner(app, replayWork(app.database, app.config.DATABASE_URL));
  readReplays(app);
  askReplays(app, runner);
}
