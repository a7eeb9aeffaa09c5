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

/** How many bits of a 32-bit number are set. */
function ones(word: number): number {
  let x = word - ((word >>> 1) & 0x55555555);
  x = (x & 0x33333333) + ((x >>> 2) & 0x33333333);
  return Math.imul((x + (x >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

const wordsOf = (hash: string) =>
  Array.from({ length: bands }, (_, band) => Number.parseInt(hash.slice(8 * band, 8 * band + 8), 16));

/** In how many bits two hashes of 64 hexadecimal digits differ, 0 to 256. Never throws. */
export function hashDistance(a: string, b: string): number {
  const theirs = wordsOf(b);
  return wordsOf(a).reduce((sum, word, band) => sum + ones(word ^ theirs[band]!), 0);
}

/** A band that more pictures than this share, such as a plain wall, is compared only with the next in its order. */
const mostOfABand = 64;

/** As many as a place beside a band leaves room for in one number. */
const mostPictures = 2 ** 21;

/** Pictures by what they show, some 100 bytes each, so that all of a company's can be held beside each other. */
export interface PictureIndex {
  /** A picture of one plain tone, or without a hash, is left out. */
  add(picture: { id: string; hash: string | null }): void;
  /** Ids of pictures that are the same but for at most six bits, the one that was added first in front. */
  pairs(): [string, string][];
}

/**
 * Hashes that differ in at most six bits share at least two of eight bands exactly, so that only pictures of one band
 * are compared; where very many share a band, those that are alike in the bands after it as well. Throws RangeError
 * for more than two million pictures.
 */
export function pictureIndex(): PictureIndex {
  const ids: string[] = [];
  let words = new Uint32Array(bands * 1024);
  const word = (picture: number, band: number) => words[bands * picture + (band % bands)]!;
  const distance = (a: number, b: number) => {
    let sum = 0;
    for (let band = 0; band < bands; band += 1) sum += ones(word(a, band) ^ word(b, band));
    return sum;
  };
  return {
    add({ id, hash }) {
      if (!hash || /^(0+|f+)$/.test(hash)) return;
      if (ids.length === mostPictures) throw new RangeError(`At most ${mostPictures} pictures.`);
      if (bands * ids.length === words.length) {
        const wider = new Uint32Array(2 * words.length);
        wider.set(words);
        words = wider;
      }
      words.set(wordsOf(hash), bands * ids.length);
      ids.push(id);
    },
    pairs() {
      const found = new Map<number, [number, number]>();
      const order = new Uint32Array(ids.length);
      const keys = new Float64Array(ids.length);
      for (let band = 0; band < bands; band += 1) {
        // Band and place in one number, which sorts many times as quickly as a function would.
        for (let at = 0; at < keys.length; at += 1) keys[at] = word(at, band) * mostPictures + at;
        keys.sort();
        for (let at = 0; at < keys.length; at += 1) order[at] = keys[at]! % mostPictures;
        for (let from = 0, to = 0; from < order.length; from = to) {
          const shared = word(order[from]!, band);
          while (to < order.length && word(order[to]!, band) === shared) to += 1;
          const run = order.subarray(from, to);
          if (run.length > mostOfABand)
            run.sort((a, b) => {
              for (let next = band + 1; next < band + bands; next += 1)
                if (word(a, next) !== word(b, next)) return word(a, next) - word(b, next);
              return a - b;
            });
          run.forEach((a, i) => {
            for (const b of run.subarray(i + 1, i + 1 + mostOfABand))
              if (distance(a, b) <= alike)
                found.set(Math.min(a, b) * ids.length + Math.max(a, b), [Math.min(a, b), Math.max(a, b)]);
          });
        }
      }
      return [...found.values()].map(([a, b]) => [ids[a]!, ids[b]!]);
    },
  };
}

/** As `pictureIndex`, of pictures that are all at hand. */
export function nearDuplicates(pictures: readonly { id: string; hash: string | null }[]): [string, string][] {
  const index = pictureIndex();
  for (const picture of pictures) index.add(picture);
  return index.pairs();
}
