import { sha256 } from '@noble/hashes/sha2.js';

const wordRange = 2 ** 32;
const doubleRange = 2 ** 53;

/** Whole numbers that follow from a key alone, the same on every machine. */
export interface WordStream {
  /** uniform over 0 … bound − 1, without bias */
  below(bound: number): number;
}

/**
 * The numbers of a draw: SHA-256 of the key and a counter, read as 32-bit words, most significant byte first; the
 * specification is in docs/sampling.md. A bound up to 2³² takes one word, a larger one two (53 bits); a number
 * beyond the last whole multiple of the bound is thrown away, so that no remainder is more likely than another.
 * @param key 32 bytes. Throws RangeError for another length, and from `below` for a bound that is not a whole
 * number between 1 and 2⁵³ − 1. Source: SHA-256 is FIPS 180-4 (from memory); vectors of the stream were computed
 * independently.
 */
export function wordStream(key: Uint8Array): WordStream {
  if (key.length !== 32) throw new RangeError('A key has 32 bytes.');
  const input = new Uint8Array(40);
  input.set(key);
  const counter = new DataView(input.buffer, 32);
  let block = 0;
  const words = new Uint32Array(8);
  let at = 8;
  const word = () => {
    if (at === 8) {
      counter.setUint32(0, Math.floor(block / wordRange));
      counter.setUint32(4, block % wordRange);
      const bytes = sha256(input);
      const view = new DataView(bytes.buffer, bytes.byteOffset);
      for (let i = 0; i < 8; i++) words[i] = view.getUint32(4 * i);
      block += 1;
      at = 0;
    }
    return words[at++]!;
  };
  return {
    below(bound) {
      if (!Number.isSafeInteger(bound) || bound < 1)
        throw new RangeError('A bound is a whole number from 1 on.');
      if (bound === 1) return 0;
      const short = bound <= wordRange;
      const range = short ? wordRange : doubleRange;
      const limit = range - (range % bound);
      for (;;) {
        const value = short ? word() : word() * 2 ** 21 + (word() >>> 11);
        if (value < limit) return value % bound;
      }
    },
  };
}
