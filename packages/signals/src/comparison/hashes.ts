/** Pictures that differ in at most so many bits are taken for the same. A mark of our own, of 256 bits. */
const alike = 6;
const bands = 8;
/** Grey levels by which a neighbour has to be brighter: less is the noise of compression. A mark of our own. */
const leastRise = 3;

/**
 * Difference hash of a grey picture of 17 × 16 pixels: a bit for each of its 256 pairs of neighbours, set when it
 * grows brighter to the right by more than three grey levels. Light and compression hardly change it.
 * Source: the difference hash (dHash), widely used, no published source seen.
 * @param grey 272 values 0 to 255, row by row
 * @returns 64 hexadecimal digits; throws RangeError when the picture has another size
 */
export function differenceHash(grey: ArrayLike<number>): string {
  if (grey.length !== 17 * 16) throw new RangeError('A difference hash needs 17 × 16 pixels.');
  let hash = '';
  for (let row = 0; row < 16; row += 1)
    for (let nibble = 0; nibble < 4; nibble += 1) {
      let bits = 0;
      for (let bit = 0; bit < 4; bit += 1) {
        const at = row * 17 + nibble * 4 + bit;
        bits = bits * 2 + (grey[at + 1]! - grey[at]! > leastRise ? 1 : 0);
      }
      hash += bits.toString(16);
    }
  return hash;
}

const ones = Array.from({ length: 16 }, (_, n) => [1, 2, 4, 8].filter((bit) => n & bit).length);

/** In how many bits two hashes of 64 hexadecimal digits differ, 0 to 256. Never throws. */
export function hashDistance(a: string, b: string): number {
  let distance = 0;
  for (let i = 0; i < a.length; i += 1)
    distance += ones[Number.parseInt(a[i]!, 16) ^ Number.parseInt(b[i] ?? '0', 16)]!;
  return distance;
}

/**
 * Pairs of pictures that are the same but for at most six bits. Hashes so near share at least one of eight bands
 * exactly, so that only pictures of one band are compared. A picture of one plain tone is compared with none.
 */
export function nearDuplicates(pictures: readonly { id: string; hash: string | null }[]): [string, string][] {
  const width = 64 / bands;
  const groups = new Map<string, { id: string; hash: string }[]>();
  const found = new Map<string, [string, string]>();
  for (const { id, hash } of pictures) {
    if (!hash || /^(0+|f+)$/.test(hash)) continue;
    for (let band = 0; band < bands; band += 1) {
      const key = `${band}${hash.slice(band * width, (band + 1) * width)}`;
      const group = groups.get(key) ?? [];
      for (const other of group)
        if (hashDistance(hash, other.hash) <= alike) found.set([other.id, id].sort().join(), [other.id, id]);
      group.push({ id, hash });
      groups.set(key, group);
    }
  }
  return [...found.values()];
}
