import type { InstallerSubmission } from '@countercheck/prisma';
import type { Actor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { openingOf } from './openings.ts';

/** The figures that a reading taken now is held against: the frozen ones unless opened again, else the newest. */
export async function figuresInForce(db: Db, houseId: string): Promise<InstallerSubmission | null> {
  const frozen = { houseId, frozenAt: { not: null } };
  const orderBy = { revision: 'desc' as const };
  const standing = await db.installerSubmission.findFirst({ where: frozen, orderBy });
  if (standing && !(await openingOf(db, houseId))) return standing;
  return db.installerSubmission.findFirst({ where: { houseId }, orderBy });
}

interface Chosen {
  revision: number;
  readAt: Date;
}

/** Older figures can be chosen where they were the newest when the reading was taken. */
async function chosenFigures(db: Db, houseId: string, { revision, readAt }: Chosen) {
  const [older, next] = await Promise.all(
    [revision, revision + 1].map((each) =>
      db.installerSubmission.findUnique({ where: { houseId_revision: { houseId, revision: each } } }),
    ),
  );
  if (!older || older.signedAt > readAt || (next && next.signedAt <= readAt))
    throw invalid('figuresChosen', 'These were not the signed figures when the reading was taken.');
  return older;
}

/**
 * From the first reading on, the newest signed figures stay as they are: what was measured is compared with
 * what was reported before anybody measured. The same again with the first reading after figures were opened for a
 * reinspection. Where the installer signed anew while a reading was on its way, a person may have chosen the
 * figures it was read against. The caller holds the house, so that no signature comes in between.
 * @returns the revision that the reading is held against; null while nothing is signed
 */
export async function freezeFigures(
  db: Db,
  actor: Actor,
  requestId: string | null,
  houseId: string,
  chosen?: Chosen,
): Promise<number | null> {
  const inForce = await figuresInForce(db, houseId);
  const opening = await openingOf(db, houseId);
  if (!inForce || (inForce.frozenAt && !opening)) return inForce?.revision ?? null;
  const frozen = chosen ? await chosenFigures(db, houseId, chosen) : inForce;
  // Read before the installer signed again: the next reading is what these were opened for.
  if (chosen && frozen.frozenAt) return frozen.revision;
  const frozenAt = new Date();
  if (opening) await db.figureOpening.update({ where: { id: opening.id }, data: { closedAt: frozenAt } });
  if (frozen.frozenAt) return frozen.revision;
  await db.installerSubmission.update({ where: { id: frozen.id }, data: { frozenAt } });
  await record(db, actor, requestId, {
    action: 'figures frozen',
    recordType: 'figures',
    recordId: frozen.id,
    houseId,
    after: { revision: frozen.revision, frozenAt },
  });
  return frozen.revision;
}
