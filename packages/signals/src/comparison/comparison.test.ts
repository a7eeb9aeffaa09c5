import { expect, test } from 'vitest';
import { Random } from '../statistics/random.ts';
import { drift } from './drift.ts';
import { greatCircle } from './great-circle.ts';
import { elsewhere } from './elsewhere.ts';
import { differenceHash, hashDistance, nearDuplicates } from './hashes.ts';
import { shrunkMeans } from './shrinkage.ts';

test('a degree of latitude is 111.2 km, and an unknown place no distance', () => {
  const at = (latitude: number | null) => ({ houseId: 'x', latitude, longitude: 5 });
  expect(greatCircle(at(41), at(42))).toBeCloseTo(111.19, 1);
  expect(greatCircle(at(41), at(null))).toBe(0);
  expect(greatCircle(undefined, at(41))).toBe(0);
});

const picture = (seed: number) => {
  const random = new Random(seed);
  return Array.from({ length: 272 }, () => random.below(256));
};

test('a brighter print of a picture has its hash, another picture has not', () => {
  const grey = picture(1);
  const hash = differenceHash(grey);
  expect(hash).toMatch(/^[0-9a-f]{64}$/);
  expect(hashDistance(hash, differenceHash(grey.map((each) => each + 20)))).toBe(0);
  expect(hashDistance(hash, differenceHash(picture(2)))).toBeGreaterThan(60);
  expect(() => differenceHash([1, 2, 3])).toThrow(RangeError);
});

test('pictures that are the same but for six bits are found among many, plain ones are not compared', () => {
  const hashes = Array.from({ length: 200 }, (_, i) => ({ id: String(i), hash: differenceHash(picture(i)) }));
  const flipped = [...hashes[7]!.hash];
  // one bit in each of six digits, all in different bands
  for (const place of [0, 9, 17, 25, 33, 41])
    flipped[place] = (Number.parseInt(flipped[place]!, 16) ^ 1).toString(16);
  const plain = { id: 'plain', hash: '0'.repeat(64) };
  const pictures = [...hashes, { id: 'again', hash: flipped.join('') }, plain, { ...plain, id: 'plain too' }];
  expect(nearDuplicates(pictures)).toEqual([['7', 'again']]);
});

test('pictures that share a plain half by the hundred do not hide the one that comes twice', () => {
  const random = new Random(12);
  const half = () => Array.from({ length: 32 }, () => random.below(16).toString(16)).join('');
  const pictures = Array.from({ length: 500 }, (_, i) => ({ id: String(i), hash: '0'.repeat(32) + half() }));
  const again = pictures[41]!.hash.replace(/.$/, (digit) => (Number.parseInt(digit, 16) ^ 1).toString(16));
  expect(nearDuplicates([...pictures, { id: 'again', hash: again }])).toEqual([['41', 'again']]);
});

test('of two photos with one picture in different houses the one that was handed in first is the earlier', () => {
  const photo = (id: string, houseId: string, addedAt: number) =>
    [id, { id, houseId, raterId: `rater of ${houseId}`, addedAt }] as const;
  const known = new Map([photo('a', 'one', 1), photo('b', 'two', 2), photo('c', 'two', 3)]);
  const found = elsewhere(
    [
      ['a', 'b'],
      ['b', 'c'],
      ['c', 'nobody knows'],
    ],
    known,
  );
  expect([...found]).toEqual([
    ['a', [{ houseId: 'two', raterId: 'rater of two', earlier: false }]],
    ['b', [{ houseId: 'one', raterId: 'rater of one', earlier: true }]],
  ]);
});

test('means of small groups are drawn toward that of all, and those of large ones hardly', () => {
  const { groups, overall } = shrunkMeans([
    { id: 'a', n: 400, mean: 1, sd: 2 },
    { id: 'b', n: 400, mean: -1, sd: 2 },
    { id: 'c', n: 3, mean: 4, sd: 2 },
    { id: 'd', n: 1, mean: 9, sd: 0 },
  ]);
  const [large, , small] = groups;
  expect(groups.map(({ id }) => id)).toEqual(['a', 'b', 'c']);
  expect(large!.weight).toBeGreaterThan(0.95);
  expect(small!.weight).toBeLessThan(large!.weight);
  expect(small!.estimate).toBeLessThan(4);
  expect(small!.estimate).toBeGreaterThan(overall);
});

test('groups that differ by chance alone are drawn together', () => {
  const same = ['a', 'b', 'c'].map((id) => ({ id, n: 50, mean: 1, sd: 2 }));
  const { groups, between } = shrunkMeans(same);
  expect(between).toBe(0);
  for (const { estimate } of groups) expect(estimate).toBeCloseTo(1, 10);
});

test('an instrument that drifts is proposed for a check, one that stands is not', () => {
  const random = new Random(9);
  const day = 86_400_000;
  const rows = (slope: number) =>
    Array.from({ length: 120 }, (_, i) => ({
      houseId: String(i),
      at: i * 3 * day,
      residual: random.normal((slope * i) / 120, 0.02),
    }));
  const moved = drift(rows(0.06), 0.03)!;
  expect(moved.recall).toBe(true);
  expect(moved.change).toBeCloseTo(0.06, 1);
  expect(drift(rows(0), 0.03)).toMatchObject({ recall: false });
  expect(drift(rows(0.06).slice(0, 5), 0.03)).toBeNull();
});
