import sharp from 'sharp';
import { differenceHash, elsewhere, pictureIndex, type Elsewhere, type Photo } from '@countercheck/signals';
import type { Db } from '../../kernel/database/database.ts';
import type { Period } from './readings.ts';

const atOnce = 50;

/** The hash of a picture; null when it cannot be read, which is for the upload to refuse and not for a look. */
async function hashOfPicture(bytes: Uint8Array): Promise<string | null> {
  try {
    const grey = await sharp(bytes)
      .greyscale()
      .resize(17, 16, { fit: 'fill', kernel: 'cubic' })
      .raw()
      .toBuffer();
    return differenceHash(grey);
  } catch {
    return null;
  }
}

/** Works out the hashes of some photos that have none yet, from their small versions; how many it was. */
export async function hashSome(db: Db, { from, to, timezone }: Period): Promise<number> {
  const rows = await db.$queryRaw<{ id: string; thumbnail: Uint8Array }[]>`
    SELECT f.id, f.thumbnail FROM stored_files f WHERE f.thumbnail IS NOT NULL
      AND NOT EXISTS (SELECT 1 FROM picture_hashes p WHERE p.file_id = f.id) AND EXISTS (
        SELECT 1 FROM attachments a JOIN visits v ON v.id = a.visit_id WHERE a.file_id = f.id AND v.starts_at >= (${from}::date)::timestamp AT TIME ZONE ${timezone}
        AND v.starts_at < (${to}::date + 1)::timestamp AT TIME ZONE ${timezone})
    LIMIT ${atOnce}`;
  const data = [];
  for (const { id, thumbnail } of rows) data.push({ fileId: id, hash: await hashOfPicture(thumbnail) });
  await db.pictureHash.createMany({ data, skipDuplicates: true });
  return rows.length;
}

/** The photos of a rater's visits over a period. */
export async function readPhotos(db: Db, raterId: string, { from, to, timezone }: Period): Promise<Photo[]> {
  const rows = await db.$queryRaw<
    {
      id: string;
      house_id: string;
      taken_at: Date | null;
      added_at: Date;
      hash: string | null;
      began: Date;
      ended: Date;
    }[]
  >`
    SELECT a.id, a.house_id, a.taken_at, a.added_at, p.hash, coalesce(v.started_at, v.starts_at) AS began,
      coalesce(v.submitted_at, v.ends_at) AS ended
    FROM visits v JOIN attachments a ON a.visit_id = v.id LEFT JOIN picture_hashes p ON p.file_id = a.file_id
    WHERE v.rater_id = ${raterId}::uuid
      AND v.starts_at >= (${from}::date)::timestamp AT TIME ZONE ${timezone}
      AND v.starts_at < (${to}::date + 1)::timestamp AT TIME ZONE ${timezone}
    ORDER BY a.added_at, a.id`;
  return rows.map(({ id, house_id, taken_at, added_at, hash, began, ended }) => ({
    ...{ id, houseId: house_id, raterId, hash, addedAt: added_at.getTime() },
    takenAt: taken_at?.getTime() ?? null,
    visit: { from: began.getTime(), to: ended.getTime() },
  }));
}

const readAtOnce = 10_000;

/**
 * Where the picture of each photo stands as well, in whose ever house and whenever, of all photos of visits whose hash
 * is known. Read in parts, of which only the hashes are kept.
 */
export async function picturesElsewhere(
  as: <T>(work: (db: Db) => Promise<T>) => Promise<T>,
  signal: AbortSignal,
): Promise<Map<string, Elsewhere[]>> {
  const index = pictureIndex();
  for (let last = '00000000-0000-0000-0000-000000000000', more = true; more;) {
    signal.throwIfAborted();
    const from = last;
    const rows = await as(
      (db) => db.$queryRaw<{ id: string; hash: string | null }[]>`
        SELECT a.id, p.hash FROM attachments a JOIN picture_hashes p ON p.file_id = a.file_id
        WHERE a.visit_id IS NOT NULL AND a.id > ${from}::uuid ORDER BY a.id LIMIT ${readAtOnce}`,
    );
    for (const row of rows) index.add(row);
    last = rows.at(-1)?.id ?? last;
    more = rows.length === readAtOnce;
  }
  const pairs = index.pairs();
  const ids = [...new Set(pairs.flat())];
  const rows = await as(
    (db) => db.$queryRaw<{ id: string; house: string; rater: string; added: Date }[]>`
      SELECT a.id, a.house_id AS house, v.rater_id AS rater, a.added_at AS added
      FROM attachments a JOIN visits v ON v.id = a.visit_id WHERE a.id = ANY(${ids}::uuid[])`,
  );
  const known = rows.map(({ id, house, rater, added }) => ({
    ...{ id, houseId: house, raterId: rater, addedAt: added.getTime() },
  }));
  return elsewhere(pairs, new Map(known.map((photo) => [photo.id, photo])));
}
