import type { Photo } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';

/** A photo without its bytes, which only the two addresses that serve them read. */
export const withFile = {
  file: { omit: { bytes: true, thumbnail: true } },
} satisfies Prisma.AttachmentInclude;
export type PhotoRow = Prisma.AttachmentGetPayload<{ include: typeof withFile }>;

export function presentPhoto(row: PhotoRow): Photo {
  const { id, fileId, visitId, item, subjectId, failedItemId, caption, addedByName } = row;
  const { width, height, mediaType, size, sha256 } = row.file;
  return {
    id,
    fileId,
    visitId,
    item,
    subjectId,
    failedItemId,
    caption,
    takenAt: row.takenAt?.toISOString() ?? null,
    addedByName,
    addedAt: row.addedAt.toISOString(),
    width,
    height,
    mediaType,
    size,
    sha256,
  };
}
