import type { FastifyInstance } from 'fastify';
import { secretBox } from '../../kernel/secrets/box.ts';
import { keepBatches } from './batches/keep.ts';
import { readBatches } from './batches/read.ts';
import { exportDraws } from './draws/export.ts';
import { freezeFrames } from './draws/freeze.ts';
import { orderDrawn } from './draws/order-work.ts';
import { publishDraws } from './draws/publish.ts';
import { readDraws } from './draws/read.ts';
import { revealDraws } from './draws/reveal.ts';
import { changeShares } from './obligations/shares.ts';
import { readObligations } from './obligations/read.ts';

/** Which files and houses are looked at again: what is owed, draws that can be repeated, batches by samples. */
export async function samplingFeature(app: FastifyInstance): Promise<void> {
  const box = secretBox(app.config.SECRET_KEY, 'draw seeds');
  readObligations(app);
  changeShares(app);
  readDraws(app);
  publishDraws(app, box);
  freezeFrames(app);
  revealDraws(app, box);
  orderDrawn(app);
  exportDraws(app);
  readBatches(app);
  keepBatches(app);
}
