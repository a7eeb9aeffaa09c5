import { fitWithin } from './fit-within.ts';

/** Enough to read a gauge's display, small enough for a phone's connection in a basement. */
const longestSide = 2500;
const quality = 0.85;
/** Enough to tell one photo from the next in a strip. */
const smallSide = 320;
const smallQuality = 0.7;

/** The photo within a length in points, or null where it is no larger or cannot be decoded here. */
async function within(file: Blob, longest: number, jpegQuality: number): Promise<Blob | null> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return null;
  }
  try {
    const { width, height } = fitWithin(picture.width, picture.height, longest);
    if (width === picture.width) return null;
    const canvas = document.createElement('canvas');
    canvas.width = width;
    canvas.height = height;
    const pen = canvas.getContext('2d');
    if (!pen) return null;
    pen.drawImage(picture, 0, 0, width, height);
    return await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', jpegQuality));
  } finally {
    picture.close();
  }
}

/** The photo, made smaller where it is larger than needed. What cannot be decoded here goes as it is. */
export const scalePhoto = async (file: Blob): Promise<Blob> =>
  (await within(file, longestSide, quality)) ?? file;

/** A small version for a strip of photos; null where none could be made. */
export const smallPhoto = (file: Blob): Promise<Blob | null> => within(file, smallSide, smallQuality);
