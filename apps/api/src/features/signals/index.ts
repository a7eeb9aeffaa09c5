import type { FastifyInstance } from 'fastify';
import { startRunner } from '../../kernel/runs/runner.ts';
import { drawCharts } from './chart.ts';
import { followFindings } from './findings.ts';
import { lookAtReadings } from './runs.ts';
import { signalWork } from './work.ts';

/** Whether readings can be believed: looks at all raters, what stood out, and control charts. */
export async function signalsFeature(app: FastifyInstance): Promise<void> {
  const runner = startRunner(app, signalWork(app.database));
  lookAtReadings(app, runner);
  followFindings(app);
  drawCharts(app);
}
