import type { FastifyInstance } from 'fastify';
import { exportLog } from './export-log.ts';
import { proveReleases } from './prove.ts';
import { recordDaily } from './record-daily.ts';
import { showHead } from './show-head.ts';

/** The chained log as others can check it: its head, all of its records, and the proof of a released file. */
export async function eventLogFeature(app: FastifyInstance): Promise<void> {
  showHead(app);
  exportLog(app);
  proveReleases(app);
  recordDaily(app);
}
