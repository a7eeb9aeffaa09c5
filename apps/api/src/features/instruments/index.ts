import type { FastifyInstance } from 'fastify';
import { keepInstruments } from './keep.ts';
import { readInstruments } from './read.ts';

export { instrumentParts, presentInstrument } from './present.ts';

/** What raters measure with, and since when and until when each may be believed. */
export async function instrumentsFeature(app: FastifyInstance): Promise<void> {
  readInstruments(app);
  keepInstruments(app);
}
