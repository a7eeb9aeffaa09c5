import type { Release } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { queueMail } from '../../kernel/records/mail.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { software } from '../../kernel/versions/software.ts';
import { lockHouse, refuseSealed } from '../houses/index.ts';
import { orderForNewFile } from '../second-looks/index.ts';
import { fileParts } from './file-parts.ts';
import { differencesOf, holdingOf } from './holding.ts';
import { refuseOwnWork } from './policy.ts';
import { presentRelease } from './present.ts';
import { contentOf, hashOf, resultText, textHash } from './seal.ts';

async function tellBuilder(
  db: Db,
  house: { id: string; address: string; lot: string; builder: { id: string } },
  url: string,
) {
  const contacts = await db.builderContact.findMany({
    where: { builderId: house.builder.id, notify: true, email: { not: null } },
  });
  const place = `${house.address} (lot ${house.lot})`;
  await queueMail(
    db,
    ...contacts.map(({ id, email }) => ({
      contactId: id,
      recipient: email!,
      subject: `Released: ${place}`,
      body: `The file of ${place} was released. The result: ${url}/my-houses/${house.id}\n`,
      about: 'release',
    })),
  );
}

/** Seals the file of a house as it stands and tells the builder; refuses while anything holds it. */
export async function releaseFile(
  db: Db,
  actor: UserActor,
  requestId: string | null,
  houseId: string,
  { note, publicUrl }: { note: string | null; publicUrl: string },
): Promise<Release> {
  const held = await lockHouse(db, houseId);
  refuseSealed(held);
  if (held.stage !== 'in_review')
    throw new AppError('conflict', 'The file does not lie before the quality manager.');
  await refuseOwnWork(db, actor, held.id);
  // Worked out from the raw readings here, with the house held: what is sealed is what was checked.
  const parts = await fileParts(db, actor, held.id);
  const { house } = parts.records;
  const differences = await differencesOf(db, held.id, parts.assessed.scorecard.verdicts);
  const holding = await holdingOf(db, house, parts.assessed, differences);
  if (holding.length > 0)
    throw new AppError('not-releasable', holding.map(({ message }) => message).join(' '), holding);

  const content = contentOf(parts, { by: actor.name, note }, await software());
  const hash = hashOf(content);
  const { revision } = house;
  const row = await db.release.create({
    data: {
      ...{ houseId, revision, content, hash },
      releasedBy: actor.name,
      releasedById: actor.id,
    },
    omit: { content: true },
  });
  await db.review.create({
    data: {
      ...{ houseId, revision, outcome: 'released', note },
      reviewerId: actor.id,
      reviewer: actor.name,
    },
  });
  await record(db, actor, requestId, {
    action: 'file released',
    recordType: 'release',
    recordId: row.id,
    houseId: held.id,
    // The builder gets this record as a proof; the note is in the review and in what was sealed.
    after: { revision, hash, resultHash: textHash(resultText(content)) },
  });
  await moveStage(db, actor, requestId, held, 'released');
  // A file counts in the year of its release, which need not be that of its submission.
  await orderForNewFile(db, requestId, houseId);
  await tellBuilder(db, house, publicUrl);
  return presentRelease(row);
}
