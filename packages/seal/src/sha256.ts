/** Works out the SHA-256 (FIPS 180-4) of bytes, 32 bytes. Whoever has a quicker one than WebCrypto brings it. */
export type Sha256 = (bytes: Uint8Array<ArrayBuffer>) => Uint8Array | Promise<Uint8Array>;

/** WebCrypto's, in every browser on a secure page and in Node. Throws where the page is not secure. */
export const webSha256: Sha256 = async (bytes) =>
  new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));

const encoder = new TextEncoder();

/** The bytes of a text in UTF-8. */
export const utf8 = (text: string): Uint8Array<ArrayBuffer> =>
  encoder.encode(text) as Uint8Array<ArrayBuffer>;

/** Bytes as lower-case hexadecimal digits. */
export function toHex(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += byte.toString(16).padStart(2, '0');
  return text;
}

/** The bytes of an even number of hexadecimal digits; throws a RangeError at anything else. */
export function fromHex(text: string): Uint8Array<ArrayBuffer> {
  if (!/^([0-9a-f]{2})*$/i.test(text)) throw new RangeError('These are not hexadecimal digits in pairs.');
  const bytes = new Uint8Array(text.length / 2);
  for (let i = 0; i < bytes.length; i += 1) bytes[i] = Number.parseInt(text.slice(2 * i, 2 * i + 2), 16);
  return bytes;
}
