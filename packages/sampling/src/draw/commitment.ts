import { sha256Bytes, sha256Hex } from './hash.ts';

/** The version of the drawing described in docs/sampling.md; a change of any number it gives is a new version. */
export const algorithm = 'countercheck-draw/1';

const seedForm = /^[0-9a-f]{64}$/;

/** Whether text is a seed: 32 bytes in lower-case hexadecimal. Never throws. */
export const isSeed = (text: string): boolean => seedForm.test(text);

/**
 * What is published before the population is frozen: it binds to the seed and does not tell it.
 * @param seed 32 random bytes in lower-case hexadecimal. Throws RangeError for any other text.
 */
export function commitmentOf(seed: string): string {
  if (!isSeed(seed)) throw new RangeError('A seed is 64 lower-case hexadecimal digits.');
  return sha256Hex(`countercheck-seed/1\n${seed}`);
}

/**
 * The key of a draw's numbers. The frame's hash is part of it, so that a population changed after the seed was known
 * gives another draw; so is the witness' contribution, which nobody knew when the seed was made.
 * Throws RangeError for text that is no seed.
 */
export function drawKey(seed: string, frameHash: string, witness: string): Uint8Array {
  if (!isSeed(seed)) throw new RangeError('A seed is 64 lower-case hexadecimal digits.');
  return sha256Bytes(`${algorithm}\n${seed}\n${frameHash}\n${witness}`);
}
