import chiSquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { commitmentOf, draw, makeFrame, sampleSize, type DrawMethod, type FrameRow } from '../index.ts';
import { certainties, marksHit } from './risk-weighted.ts';
import { allocate } from './stratified.ts';
import { wordStream } from './words.ts';

// Vectors from an implementation in another language (Python, hashlib), written from docs/sampling.md alone.
const seed = '00112233445566778899aabbccddeeff'.repeat(2);
const population: FrameRow[] = Array.from({ length: 12 }, (_, i) => ({
  id: `f${String(i).padStart(2, '0')}`,
  rater: i < 7 ? 'r1' : 'r2',
  builder: i % 3 ? 'b1' : 'b2',
  kind: i % 2 ? 'final' : 'rough',
  date: `2026-0${1 + (i % 9)}-15`,
  weight: 1 + (i % 4),
}));
const frame = makeFrame(population);
const ids = (method: DrawMethod, count: number, from = frame, by = seed) =>
  draw({ frame: from, seed: by, witness: '4 8 15', method, size: { count } }).sample.map(({ id }) => id);

describe('the numbers of a draw', () => {
  it('are those of the specification', () => {
    expect(commitmentOf(seed)).toBe('6f7faaf237381e4c39459eb4faf2ebf55e17a2ec8b9742e6cc38b3a9e84da789');
    const words = wordStream(Uint8Array.from({ length: 32 }, (_, i) => i));
    const bounds = [10, 1000, 1, 2 ** 32, 3e9, 1e12, 2 ** 53 - 1, 6, 6, 6];
    expect(bounds.map((bound) => words.below(bound))).toEqual([
      ...[2, 949, 0, 952885779, 2360485253, 103136190008, 8062712761027640, 0, 0, 4],
    ]);
    expect(frame.hash).toBe('d269722259ee5dcbd6bad104cab1ff177b84acf2f51d8f37c4f56e23fddc09ee');
    expect(ids('simple', 4)).toEqual(['f01', 'f03', 'f06', 'f10']);
    expect(ids('systematic', 5)).toEqual(['f01', 'f04', 'f00', 'f07', 'f08']);
    expect(ids('risk-weighted', 4).sort()).toEqual(['f03', 'f06', 'f09', 'f11']);
    expect(ids('stratified', 9)).toEqual([
      ...['f01', 'f05', 'f02', 'f04', 'f03', 'f00', 'f11', 'f10', 'f09'],
    ]);
  });

  it('refuse a key or a bound that is none', () => {
    expect(() => wordStream(new Uint8Array(31))).toThrow(RangeError);
    for (const bound of [0, 1.5, -1, 2 ** 53])
      expect(() => wordStream(new Uint8Array(32)).below(bound)).toThrow(RangeError);
    expect(() => commitmentOf('short')).toThrow(RangeError);
    expect(() => ids('simple', 2, frame, 'short')).toThrow(RangeError);
  });

  it('change with seed, frame and witness', () => {
    const base = draw({ frame, seed, witness: '', method: 'simple', size: { count: 6 } });
    const other = makeFrame([...population, { ...population[0]!, id: 'f99' }]);
    const all = [
      draw({ frame, seed: seed.replace('0', '1'), witness: '', method: 'simple', size: { count: 6 } }),
      draw({ frame: other, seed, witness: '', method: 'simple', size: { count: 6 } }),
      draw({ frame, seed, witness: 'x', method: 'simple', size: { count: 6 } }),
    ];
    for (const each of all) expect(each.sample).not.toEqual(base.sample);
  });
});

describe('a frame', () => {
  it('is the same whatever order the population came in, and by whatever SHA-256', () => {
    const hash = createHash('sha256');
    const native = { update: (text: string) => void hash.update(text), hex: () => hash.digest('hex') };
    expect(makeFrame(population.toReversed(), native)).toEqual(frame);
  });

  it('refuses what another programme could read differently', () => {
    const [first] = population as [FrameRow];
    const refused: FrameRow[][] = [
      [],
      [first, first],
      [{ ...first, rater: 'a "b"' }],
      [{ ...first, builder: 'é' }],
      [{ ...first, weight: 0 }],
      [{ ...first, weight: 1.5 }],
    ];
    for (const rows of refused) expect(() => makeFrame(rows)).toThrow(RangeError);
  });
});

it('finds strata of any length, with each file in exactly one', () => {
  const rows = Array.from({ length: 400 }, (_, i) => ({
    ...{ id: `x${i}`, rater: `r${Math.floor(Math.sqrt(i))}`, builder: 'b', kind: 'final' },
    ...{ date: '2026-01-01', weight: 1 },
  }));
  const { strata } = draw({
    ...{ frame: makeFrame(rows), seed, witness: '', method: 'stratified', size: { count: 40 } },
  });
  const counts = new Map(strata!.map((each) => [each.rater, each.population]));
  expect(counts.size).toBe(20);
  for (let i = 0; i < 20; i++) expect(counts.get(`r${i}`)).toBe(2 * i + 1);
});

describe('sizes', () => {
  it('round a share up without doubt', () => {
    expect(sampleSize({ share: 700 }, 100)).toBe(7);
    expect(sampleSize({ share: 1000 }, 101)).toBe(11);
    expect(sampleSize({ share: 1 }, 5)).toBe(1);
    expect(sampleSize({ count: 9 }, 5)).toBe(5);
  });

  it('are shared out over strata, at least one each', () => {
    expect(allocate([700, 200, 60, 30, 10], 20)).toEqual([13, 4, 1, 1, 1]);
    expect(allocate([5, 1, 1, 1, 1, 1, 1], 8)).toEqual([2, 1, 1, 1, 1, 1, 1]);
    expect(allocate([3, 3], 1)).toEqual([1, 1]);
    for (const [sizes, n] of [
      [[10, 20, 30], 60],
      [[7, 7, 7, 1], 10],
      [[1, 99], 30],
    ] as const) {
      const shares = allocate(sizes, n);
      expect(shares.reduce((sum, each) => sum + each)).toBe(n);
      shares.forEach((each, at) => expect(each >= 1 && each <= sizes[at]!).toBe(true));
    }
  });
});

describe('chances', () => {
  it('of a systematic sample are n / N for every file, by every start', () => {
    for (const [size, count] of [
      [12, 5],
      [7, 3],
      [10, 10],
    ] as const) {
      const hits = new Array<number>(size).fill(0);
      for (let start = 0; start < size; start++)
        for (let k = 0; k < count; k++) hits[Math.floor((start + k * size) / count)]! += 1;
      expect(hits).toEqual(new Array(size).fill(count));
    }
  });

  it('of a risk-weighted sample are m·w / T for every file, by every start and in any order', () => {
    const weights = [1, 4, 2, 2, 7, 1, 1, 12, 3, 3];
    const { certain, left, total } = certainties(weights, 4);
    expect([...certain].flatMap((is, at) => (is ? [at] : []))).toEqual([7]);
    expect([left, total]).toEqual([3, 24]);
    for (const order of [
      [0, 1, 2, 3, 4, 5, 6, 8, 9],
      [9, 4, 1, 0, 8, 2, 6, 5, 3],
    ]) {
      const hits = weights.map(() => 0);
      for (let start = 0; start < total; start++) {
        const hit = marksHit(order, weights, left, total, start);
        expect(hit).toHaveLength(left);
        for (const at of hit) hits[at]! += 1;
      }
      expect(hits).toEqual(weights.map((weight, at) => (certain[at] ? 0 : left * weight)));
    }
  });

  it('of a unit that outweighs its step are certain, round after round', () => {
    const { certain, left } = certainties([100, 30, 1, 1, 1, 1], 3);
    expect([...certain]).toEqual([1, 1, 0, 0, 0, 0]);
    expect(left).toBe(1);
    expect(ids('risk-weighted', 12)).toHaveLength(12);
  });
});

/** How often each file comes over seeded runs, and how its chance was stated. */
function frequencies(method: DrawMethod, count: number, runs: number) {
  const hits = new Map(population.map(({ id }) => [id, 0]));
  const chances = new Map<string, number>();
  for (let run = 0; run < runs; run++) {
    const by = run.toString(16).padStart(64, '0');
    for (const { id, chance } of draw({ frame, seed: by, witness: '', method, size: { count } }).sample) {
      hits.set(id, hits.get(id)! + 1);
      chances.set(id, chance[0] / chance[1]);
    }
  }
  return { hits, chances };
}

// The seeds are fixed, so that these either pass or fail for good; the bounds are those of one run in a thousand.
const plausible = (statistic: number, degrees: number) => {
  const below = chiSquareCdf(statistic, degrees);
  expect(below).toBeGreaterThan(0.0005);
  expect(below).toBeLessThan(0.9995);
};
const runs = 2_000;

describe('frequencies over seeded runs are those stated, by chi-square', () => {
  it('simple', { timeout: 60_000 }, () => {
    const { hits, chances } = frequencies('simple', 5, runs);
    const p = 5 / 12;
    let statistic = 0;
    for (const [id, count] of hits) {
      expect(chances.get(id)).toBe(p);
      statistic += (count - runs * p) ** 2 / (runs * p * (1 - p));
    }
    // Counts of a sample of fixed size lean on each other by −1 / (N − 1).
    plausible((statistic * 11) / 12, 11);
  });

  it('stratified, in each stratum', { timeout: 60_000 }, () => {
    const { hits, chances } = frequencies('stratified', 9, runs);
    let statistic = 0;
    let degrees = 0;
    const strata = new Map<string, FrameRow[]>();
    for (const row of frame.rows) {
      const key = `${row.rater} ${row.builder} ${row.kind}`;
      strata.set(key, [...(strata.get(key) ?? []), row]);
    }
    for (const rows of strata.values()) {
      const p = chances.get(rows[0]!.id)!;
      if (p === 1) {
        for (const { id } of rows) expect(hits.get(id)).toBe(runs);
        continue;
      }
      for (const { id } of rows)
        statistic +=
          (((hits.get(id)! - runs * p) ** 2 / (runs * p * (1 - p))) * (rows.length - 1)) / rows.length;
      degrees += rows.length - 1;
    }
    expect(degrees).toBeGreaterThan(2);
    plausible(statistic, degrees);
  });

  it.each(['systematic', 'risk-weighted'] as const)('%s, one at a time', { timeout: 60_000 }, (method) => {
    const { hits, chances } = frequencies(method, 1, runs);
    let statistic = 0;
    for (const [id, count] of hits) {
      const expected = runs * chances.get(id)!;
      statistic += (count - expected) ** 2 / expected;
    }
    plausible(statistic, 11);
  });

  it('risk-weighted, several at a time: each file by itself', { timeout: 60_000 }, () => {
    const { hits, chances } = frequencies('risk-weighted', 4, runs);
    const weights = new Map(population.map(({ id, weight }) => [id, weight]));
    for (const [id, count] of hits) {
      const p = chances.get(id)!;
      expect(p).toBeCloseTo((4 * weights.get(id)!) / 30, 12);
      // Twelve files at once: 3.9 standard deviations are passed once in about a thousand.
      expect(Math.abs(count - runs * p) / Math.sqrt(runs * p * (1 - p))).toBeLessThan(3.9);
    }
  });
});
