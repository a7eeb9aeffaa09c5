import * as z from 'zod';
import { releasedRecord } from '@countercheck/seal';
import type { Release } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import { hashOf } from './seal.ts';

const photoSchema = z.object({ fileId: z.string(), sha256: z.string() });
/** Where a sealed content names photos. */
const sealedPhotosSchema = z.object({
  photos: z.array(photoSchema),
  failedItems: z.array(z.object({ photos: z.array(photoSchema) })),
});

/** The hash that the log keeps of a release; the log is chained, the table of releases is not. */
async function loggedHash(db: Db, releaseId: string): Promise<string | undefined> {
  const [row] = await db.$queryRaw<{ content: string }[]>`
    SELECT e.content FROM events e JOIN event_chain c ON c.event_id = e.id
    WHERE e.record_type = 'release' AND e.record_id = ${releaseId} AND e.action = 'file released'
    ORDER BY c.sequence LIMIT 1`;
  return row && releasedRecord(row.content)?.after.hash;
}

/** How many of the photos that were sealed are gone, or are other bytes than then. */
async function photosChanged(db: Db, content: unknown): Promise<{ sealed: number; changed: number }> {
  const { data } = sealedPhotosSchema.safeParse(content);
  const photos = data ? [...data.photos, ...data.failedItems.flatMap((item) => item.photos)] : [];
  const hashes = new Map(photos.map(({ fileId, sha256 }) => [fileId, sha256]));
  const rows = await db.$queryRaw<{ id: string; hash: string }[]>`
    SELECT id::text, encode(sha256(bytes), 'hex') AS hash FROM stored_files
    WHERE id = ANY(${[...hashes.keys()]}::uuid[])`;
  const same = rows.filter(({ id, hash }) => hashes.get(id) === hash);
  return { sealed: hashes.size, changed: hashes.size - same.length };
}

/** Everything of a released file that is no longer as it was sealed, in words. */
export async function sealProblems(db: Db, release: Release): Promise<string[]> {
  const problems: string[] = [];
  if (hashOf(release.content) !== release.hash)
    problems.push('The content no longer gives the hash under which it was sealed.');
  if ((await loggedHash(db, release.id)) !== release.hash)
    problems.push('The event log does not tell of a release with this hash.');
  const { sealed, changed } = await photosChanged(db, release.content);
  if (changed > 0)
    problems.push(`${changed} of ${sealed} photos are gone or are not the bytes that were sealed.`);
  return problems;
}
