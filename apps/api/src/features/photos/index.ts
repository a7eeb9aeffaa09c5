import type { FastifyInstance } from 'fastify';
import { servePhotos } from './serve.ts';

export { prepareImage } from './image.ts';
export { keepPhoto, type PhotoPlace } from './keep.ts';
export { presentPhoto, withFile } from './present.ts';
export { receiveUpload } from './upload.ts';

/** Photos: what is accepted, how it is kept, and who may look at it. */
export async function photosFeature(app: FastifyInstance): Promise<void> {
  servePhotos(app);
}
