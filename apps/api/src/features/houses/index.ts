import type { FastifyInstance } from 'fastify';
import { changeHouses } from './change.ts';
import { importHouses } from './import/index.ts';
import { readHouses } from './read.ts';
import { registerHouses } from './register.ts';

export { reportedHidden } from './blind.ts';
export { loadHouse, lockHouse, refuseSealed, type LockedHouse } from './load.ts';
export { houseSummaryInclude, presentHouseSummary } from './present.ts';

/** The houses under test: their facts, their parts, and files of many at once. */
export async function housesFeature(app: FastifyInstance): Promise<void> {
  readHouses(app);
  registerHouses(app);
  changeHouses(app);
  importHouses(app);
}
