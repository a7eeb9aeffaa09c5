import type { FastifyInstance } from 'fastify';
import { startRunner } from '../../kernel/runs/runner.ts';
import { beginRecalls } from './begin.ts';
import { readRecalls } from './read.ts';
import { sendLetters } from './send-letters.ts';
import { recallWork } from './work.ts';

/** Instruments found out of tolerance, and what that did to the houses. */
export async function recallFeature(app: FastifyInstance): Promise<void> {
  const runner = startRunner(app, recallWork(app.database));
  readRecalls(app);
  beginRecalls(app, runner);
  sendLetters(app);
}
