import { utf8, webSha256, type Sha256 } from './sha256.ts';

/** The newest way of chaining; a record says by which one it was chained, and the hash covers that too. */
export const chainVersion = 1;

/** What stands before the first record: 32 zero bytes. */
export const genesis = (): Uint8Array<ArrayBuffer> => new Uint8Array(32);

/** SHA-256 (FIPS 180-4) of a record's content as it is written, in UTF-8. Rejects only where `sha256` does. */
export async function contentHash(content: string, sha256: Sha256 = webSha256): Promise<Uint8Array> {
  return sha256(utf8(content));
}

const hashBytes = 32;
const sequenceBytes = 8;

/**
 * The hash of a record in the chain: SHA-256 over
 *
 *     UTF-8("countercheck-event-chain/" version) ‖ 00 ‖ previous hash (32) ‖ sequence (8, big-endian) ‖ content hash (32)
 *
 * The name in front keeps these hashes apart from every other use of SHA-256. Throws a RangeError at an unknown
 * version, a sequence that is not a positive safe integer, or hashes that are not 32 bytes.
 */
export async function linkHash(
  link: { version: number; previous: Uint8Array; sequence: number; contentHash: Uint8Array },
  sha256: Sha256 = webSha256,
): Promise<Uint8Array> {
  const { version, previous, sequence } = link;
  if (version !== chainVersion) throw new RangeError(`There is no chain version ${version}.`);
  if (!Number.isSafeInteger(sequence) || sequence < 1) throw new RangeError('A sequence begins with 1.');
  if (previous.length !== hashBytes || link.contentHash.length !== hashBytes)
    throw new RangeError('A hash has 32 bytes.');
  const name = utf8(`countercheck-event-chain/${version}`);
  const bytes = new Uint8Array(name.length + 1 + hashBytes + sequenceBytes + hashBytes);
  bytes.set(name);
  let at = name.length + 1;
  bytes.set(previous, at);
  at += hashBytes;
  new DataView(bytes.buffer).setBigUint64(at, BigInt(sequence));
  bytes.set(link.contentHash, at + sequenceBytes);
  return sha256(bytes);
}
