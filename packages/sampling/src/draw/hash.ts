import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

/** Something that takes text piece by piece and gives its SHA-256 in hexadecimal. */
export interface TextHasher {
  update(text: string): void;
  hex(): string;
}

/** SHA-256 of UTF-8 text in lower-case hexadecimal. Never throws. Source: FIPS 180-4, by an independent library. */
export const sha256Hex = (text: string): string => bytesToHex(sha256(utf8ToBytes(text)));

/** The usual hasher; a server may give one of its own that is quicker. Never throws. */
export function textHasher(): TextHasher {
  const hash = sha256.create();
  return { update: (text) => void hash.update(utf8ToBytes(text)), hex: () => bytesToHex(hash.digest()) };
}

/** SHA-256 of UTF-8 text as 32 bytes. Never throws. */
export const sha256Bytes = (text: string): Uint8Array => sha256(utf8ToBytes(text));
