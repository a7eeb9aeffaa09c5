import { isSeed } from '../draw/commitment.ts';
import { sha256Bytes } from '../draw/hash.ts';
import { places, shuffleFirst } from '../draw/select.ts';
import { wordStream } from '../draw/words.ts';

/**
 * The random order in which the houses of a set would be tested: the first ones are, the next ones when testing is
 * widened. The ids are sorted first, so that the order follows from ids and seed alone (docs/sampling.md).
 * @param seed 32 random bytes in lower-case hexadecimal. Throws RangeError for any other text.
 */
export function testingOrder(houseIds: readonly string[], seed: string): string[] {
  if (!isSeed(seed)) throw new RangeError('A seed is 64 lower-case hexadecimal digits.');
  const sorted = [...houseIds].sort();
  const order = places(sorted.length);
  const words = wordStream(sha256Bytes(`countercheck-set/1\n${seed}\n${sorted.join('\n')}`));
  shuffleFirst(order, sorted.length, words);
  return Array.from(order, (at) => sorted[at]!);
}
