import { createHash } from 'node:crypto';
import { fileTypeFromBuffer } from 'file-type';
import sharp from 'sharp';
import { AppError } from '../../kernel/problems/app-error.ts';

const kept = ['image/jpeg', 'image/png', 'image/webp'];
/** A small file can unfold into gigabytes; no phone takes photos of more points than this. */
const mostPixels = 110_000_000;
const thumbnailSide = 320;

export interface PreparedImage {
  /** as sent: it is evidence */
  bytes: Uint8Array<ArrayBuffer>;
  thumbnail: Uint8Array<ArrayBuffer>;
  mediaType: string;
  width: number;
  height: number;
  size: number;
  sha256: string;
}

/** Looks at what a file is, whatever it calls itself, and makes its small version. */
export async function prepareImage(file: Buffer): Promise<PreparedImage> {
  const type = await fileTypeFromBuffer(file);
  if (!type || !kept.includes(type.mime)) throw new AppError('file-type-refused');
  try {
    const image = sharp(file, { limitInputPixels: mostPixels, failOn: 'error', pages: 1 });
    const { width, height, orientation = 1 } = await image.metadata();
    const turned = orientation > 4;
    const thumbnail = await image
      .autoOrient()
      .resize({ width: thumbnailSide, height: thumbnailSide, fit: 'inside', withoutEnlargement: true })
      .webp({ quality: 75 })
      .timeout({ seconds: 20 })
      .toBuffer();
    return {
      bytes: new Uint8Array(file),
      thumbnail: new Uint8Array(thumbnail),
      mediaType: type.mime,
      width: turned ? height : width,
      height: turned ? width : height,
      size: file.length,
      sha256: createHash('sha256').update(file).digest('hex'),
    };
  } catch (error) {
    const why = error instanceof Error && /pixel limit/.test(error.message) ? ' It has too many points.' : '';
    throw new AppError('file-type-refused', `The photo cannot be read.${why}`);
  }
}
