import { createHash } from 'node:crypto';
import sharp from 'sharp';
import type { Prisma } from '../../generated/client.ts';
import { displayPhoto } from '../photo.ts';
import type { Random } from '../random.ts';
import type { Story } from '../stories.ts';
import type { Cast } from './people.ts';

type Db = Prisma.TransactionClient;

const itemOf: Record<string, string> = {
  'envelope-leakage': 'envelope-leakage',
  'duct-leakage-total': 'duct-leakage-total',
  'supply-static': 'supply-static',
  'kitchen-exhaust': 'kitchen-exhaust',
};

/** The figure that the display showed: the first number of the reading. */
function figure(raw: { values: Record<string, number>; rows: { values: Record<string, number> }[] }): string {
  const value = Object.values(raw.values)[0] ?? Object.values(raw.rows[0]?.values ?? {})[0] ?? 0;
  return Math.abs(value) < 1 ? value.toFixed(3) : value.toFixed(1);
}

/** Photos of displays for some readings of each visit, drawn for the figure that was read. */
export async function writePhotos(db: Db, stories: Story[], cast: Cast, random: Random): Promise<void> {
  for (const { house, visits, builder } of stories) {
    for (const visit of visits) {
      const shown = visit.readings.filter(({ file }) => itemOf[file.test] !== undefined).slice(0, 4);
      for (const { file, takenAt } of shown) {
        const hold = {
          turn: random.between(-9, 9),
          right: random.between(-110, 110),
          down: random.between(-70, 70),
          near: random.between(0.8, 1.2),
          light: random.between(20, 160),
        };
        const bytes = await displayPhoto(figure(file.raw), builder * 70 + 190, hold);
        const thumbnail = await sharp(bytes)
          .resize(320, 320, { fit: 'inside' })
          .webp({ quality: 70 })
          .toBuffer();
        const fileId = random.uuid();
        const rater = cast.raters[visit.rater]!;
        await db.storedFile.createMany({
          data: [
            {
              id: fileId,
              sha256: createHash('sha256').update(bytes).digest('hex'),
              mediaType: 'image/jpeg',
              size: bytes.length,
              width: 960,
              height: 720,
              bytes: new Uint8Array(bytes),
              thumbnail: new Uint8Array(thumbnail),
              createdAt: takenAt,
            },
          ],
        });
        await db.attachment.createMany({
          data: [
            {
              id: random.uuid(),
              houseId: house.id,
              fileId,
              visitId: visit.id,
              item: itemOf[file.test]!,
              subjectId: file.test.startsWith('duct') ? 'house' : file.subjectId,
              caption: 'Display at the reading',
              takenAt,
              addedById: rater.id,
              addedByName: rater.name,
              addedAt: takenAt,
            },
          ],
        });
      }
    }
  }
}
