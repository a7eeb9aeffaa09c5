import { fitWithin } from './fit-within.ts';

/** Enough to read a gauge's display, small enough for a phone's connection in a basement. */
const longestSide = 2500;
const quality = 0.85;

/** The photo, made smaller where it is larger than needed. What cannot be decoded here goes as it is. */
export async function scalePhoto(file: Blob): Promise<Blob> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return file;
  }
  try {
    const { width, height } = fitWithin(picture.width, picture.height, longestSide);
    if (width === picture.width) return file;
    const canvas = document.createElement('canvas');
    canvas.width = width;
    canvas.height = height;
    const pen = canvas.getContext('2d');
    if (!pen) return file;
    pen.drawImage(picture, 0, 0, width, height);
    const scaled = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', quality));
    return scaled ?? file;
  } finally {
    picture.close();
  }
}
