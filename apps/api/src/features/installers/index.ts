import type { FastifyInstance } from 'fastify';
import { showFigures } from './form.ts';
import { keepInstallers } from './keep.ts';
import { keepLinks } from './links.ts';
import { openFiguresAgain } from './open-again.ts';
import { signFigures } from './sign.ts';

export { figuresInForce, freezeFigures } from './freeze.ts';
export { presentSubmission, submissionParts } from './present.ts';

/** Those who installed, the links that open one house to them, and the figures they sign. */
export async function installersFeature(app: FastifyInstance): Promise<void> {
  keepInstallers(app);
  keepLinks(app);
  openFiguresAgain(app);
  showFigures(app);
  signFigures(app);
}
