import type { InstallerSubmission } from '@countercheck/prisma';
import type { Actor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';

/** The figures that readings are held against: the frozen ones, else the newest signed. */
export async function figuresInForce(db: Db, houseId: string): Promise<InstallerSubmission | null> {
  const frozen = await db.installerSubmission.findFirst({
    where: { houseId, frozenAt: { not: null } },
    orderBy: { revision: 'desc' },
  });
  return (
    frozen ?? (await db.installerSubmission.findFirst({ where: { houseId }, orderBy: { revision: 'desc' } }))
  );
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
 * what was reported before anybody measured. Nothing happens when none are signed, or some are frozen. Where
 * the installer signed anew while a reading was on its way, a person may have chosen the figures it was read
 * against. The caller holds the house, so that no signature comes in between.
 */
export async function freezeFigures(
  db: Db,
  actor: Actor,
  requestId: string | null,
  houseId: string,
  chosen?: Chosen,
): Promise<void> {
  const inForce = await figuresInForce(db, houseId);
  if (!inForce || inForce.frozenAt) return;
  const frozen = chosen ? await chosenFigures(db, houseId, chosen) : inForce;
  const frozenAt = new Date();
  await db.installerSubmission.update({ where: { id: frozen.id }, data: { frozenAt } });
  await record(db, actor, requestId, {
    action: 'figures frozen',
    recordType: 'figures',
    recordId: frozen.id,
    houseId,
    after: { revision: frozen.revision, frozenAt },
  });
}
