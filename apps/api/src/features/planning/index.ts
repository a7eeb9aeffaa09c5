import type { FastifyInstance } from 'fastify';
import { startRunner } from '../../kernel/runs/runner.ts';
import { askPlans } from './ask.ts';
import { decideProposals } from './decide.ts';
import { readPlans } from './read.ts';
import { keepSettings } from './settings.ts';
import { planWork } from './work.ts';

/** Who goes where in which order: proposed in the background, booked when somebody accepts it. */
export async function planningFeature(app: FastifyInstance): Promise<void> {
  const runner = startRunner(app, planWork(app.database));
  readPlans(app);
  askPlans(app, runner);
  decideProposals(app);
  keepSettings(app);
}
