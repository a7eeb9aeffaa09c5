import { createHash } from 'node:crypto';
import { fileTypeFromBuffer } from 'file-type';
import { AppError } from '../../../kernel/problems/app-error.ts';
import { prepareImage } from '../../photos/index.ts';

const pdf = 'application/pdf';
const longestName = 120;
/** Where the end of a PDF says that it is one (ISO 32000, from memory: in the last kilobyte, as readers take it). */
const endWithin = 1024;
const nameless: Record<string, string> = { [pdf]: 'evidence.pdf' };

/** What a file was called, fit to be shown and to be saved under: the last part, without signs that mean anything. */
export function safeName(given: string, mediaType: string): string {
  const last = given.split(/[/\\]/).at(-1)!;
  const plain = last.replace(/[\p{Cc}\p{Cf}"<>|:*?]/gu, '').trim();
  const signs = [...plain];
  const short =
    signs.length <= longestName
      ? plain
      : `${signs.slice(0, longestName - 5).join('')}…${signs.slice(-4).join('')}`;
  return short === '' || /^\.+$/.test(short) ? (nameless[mediaType] ?? 'evidence') : short;
}

/** Looks at what a file is, whatever it calls itself: a photo as everywhere, or a PDF that is whole. Kept as it was sent. */
export async function prepareEvidence(file: Buffer, name: string) {
  const type = await fileTypeFromBuffer(file);
  if (type?.mime !== pdf) {
    const image = await prepareImage(file);
    return { stored: image, fileName: safeName(name, image.mediaType) };
  }
  if (!file.subarray(-endWithin).includes('%%EOF'))
    throw new AppError(
      'file-type-refused',
      'The PDF breaks off before its end. Save it again and send that.',
    );
  const sha256 = createHash('sha256').update(file).digest('hex');
  return {
    stored: { bytes: new Uint8Array(file), mediaType: pdf, size: file.length, sha256 },
    fileName: safeName(name, pdf),
  };
}

/**
 * Headers with which somebody else's file does no harm: taken for nothing but what it is, run by nothing, and a PDF,
 * which may hold scripts, is saved rather than opened beside the pages.
 */
export function headersOf(name: string, mediaType: string): Record<string, string> {
  const ascii = name.replace(/[^ -~]|[\\%]/g, '_');
  const how = mediaType === pdf ? 'attachment' : 'inline';
  const encoded = encodeURIComponent(name).replace(
    /['()*]/g,
    (sign) => `%${sign.charCodeAt(0).toString(16)}`,
  );
  return {
    'cache-control': 'private, max-age=86400',
    'content-security-policy': "default-src 'none'; sandbox",
    'x-content-type-options': 'nosniff',
    'content-disposition': `${how}; filename="${ascii}"; filename*=UTF-8''${encoded}`,
  };
}
