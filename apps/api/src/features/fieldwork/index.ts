import type { FastifyInstance } from 'fastify';
import { addVisitPhotos } from './add-photo.ts';
import { packFieldwork } from './field-package.ts';
import { reportNotReady } from './not-ready.ts';
import { takeReadings } from './read.ts';
import { reopenVisits } from './reopen.ts';
import { showSheet } from './sheet.ts';
import { submitVisits } from './submit.ts';
import { sweepDaily } from './sweep.ts';
import { takePhotosInPieces } from './photo-pieces.ts';

export { inOrderTaken, presentReading, readingParts } from './present.ts';

/** The rater's work on one visit: his sheet, his readings and photos, and handing it in. */
export async function fieldworkFeature(app: FastifyInstance): Promise<void> {
  showSheet(app);
  packFieldwork(app);
  takeReadings(app);
  addVisitPhotos(app);
  takePhotosInPieces(app);
  submitVisits(app);
  reportNotReady(app);
  reopenVisits(app);
  sweepDaily(app);
}
