import type { FastifyInstance } from 'fastify';
import { answerFindings } from './answer.ts';
import { giveFilesBack } from './give-back.ts';
import { releaseFiles } from './release.ts';
import { openFilesAgain, readSealed } from './sealed.ts';
import { showWholeFile } from './whole-file.ts';

export { fileParts } from './file-parts.ts';
export { differencesOf } from './holding.ts';
export { isOwnWork, refuseOwnWork } from './policy.ts';
export { releaseFile } from './release-file.ts';
export { hashOf, resultText } from './seal.ts';

/** The second pair of eyes: the whole file computed again, returned with findings or released and sealed. */
export async function reviewFeature(app: FastifyInstance): Promise<void> {
  showWholeFile(app);
  giveFilesBack(app);
  answerFindings(app);
  releaseFiles(app);
  readSealed(app);
  openFilesAgain(app);
}
