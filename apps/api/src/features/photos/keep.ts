import { randomUUID } from 'node:crypto';
import type { Photo } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import type { PreparedImage } from './image.ts';
import { presentPhoto, withFile, type PhotoRow } from './present.ts';

/** What a photo is of, as the one who took it said. */
export interface PhotoPlace {
  id: string;
  houseId: string;
  visitId: string | null;
  failedItemId: string | null;
  item: string | null;
  subjectId: string | null;
  caption: string | null;
  takenAt: Date | null;
}

function sameAsBefore(row: PhotoRow, place: PhotoPlace, image: PreparedImage, actor: UserActor): boolean {
  const { houseId, visitId, item, subjectId, caption } = row;
  return (
    row.file.sha256 === image.sha256 &&
    row.addedById === actor.id &&
    houseId === place.houseId &&
    visitId === place.visitId &&
    // A rater's photo is given to the failed item after it was sent, so that one may differ.
    (place.failedItemId === null || row.failedItemId === place.failedItemId) &&
    item === place.item &&
    subjectId === place.subjectId &&
    caption === place.caption
  );
}

/** The bytes are kept once a house. Nothing is read back from the insert: a builder may not see a file without a photo. */
async function fileOf(db: Db, image: PreparedImage, houseId: string): Promise<string> {
  const known = await db.storedFile.findFirst({
    where: { sha256: image.sha256, attachments: { some: { houseId } } },
    select: { id: true },
  });
  if (known) return known.id;
  const id = randomUUID();
  await db.storedFile.createMany({ data: { id, ...image } });
  return id;
}

/** Keeps a photo; sending it twice keeps it once. */
export async function keepPhoto(
  db: Db,
  actor: UserActor,
  requestId: string,
  place: PhotoPlace,
  image: PreparedImage,
): Promise<Photo> {
  const earlier = await db.attachment.findUnique({ where: { id: place.id }, include: withFile });
  if (earlier) {
    if (!sameAsBefore(earlier, place, image, actor)) throw new AppError('same-key-other-body');
    return presentPhoto(earlier);
  }
  const fileId = await fileOf(db, image, place.houseId);
  await db.attachment.createMany({
    data: { ...place, fileId, addedById: actor.id, addedByName: actor.name },
  });
  await record(db, actor, requestId, {
    action: 'photo added',
    recordType: place.failedItemId ? 'failed item' : 'visit',
    recordId: place.failedItemId ?? place.visitId ?? place.houseId,
    houseId: place.houseId,
    after: { ...place, sha256: image.sha256 },
  });
  return presentPhoto(
    found(await db.attachment.findUnique({ where: { id: place.id }, include: withFile }), 'photo'),
  );
}
