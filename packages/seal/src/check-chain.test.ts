import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import {
  checkChain,
  contentHash,
  eventContent,
  fromHex,
  genesis,
  linkHash,
  readLog,
  toHex,
  type ChainRecord,
  type Head,
} from './index.ts';

const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest();

async function chain(contents: string[]): Promise<ChainRecord[]> {
  const records: ChainRecord[] = [];
  let previous: Uint8Array = genesis();
  for (const [i, content] of contents.entries()) {
    const link = { version: 1, previous, sequence: i + 1 };
    const hash = await linkHash({ ...link, contentHash: await contentHash(content, sha256) }, sha256);
    records.push({ ...link, content, hash });
    previous = hash;
  }
  return records;
}
const headOf = (records: ChainRecord[]): Head => ({
  format: 'countercheck-log-head/1',
  sequence: records.length,
  hash: records.length === 0 ? '0'.repeat(64) : toHex(records.at(-1)!.hash),
  at: '2026-05-04T12:00:00.000Z',
});
const contents = ['{"a":1}', '{"a":2}', '{"a":3}', '{"a":4}', '{"a":5}'];

it('hashes a link over name, previous hash, place and content, as it is written down for auditors', async () => {
  // Put together here byte by byte, without the code under test.
  const previous = Buffer.alloc(32, 7);
  const place = Buffer.from([0, 0, 0, 1, 0, 0, 0, 2]);
  const input = Buffer.concat([
    Buffer.from('countercheck-event-chain/1\0', 'utf8'),
    previous,
    place,
    sha256(Buffer.from('{"ü":1}', 'utf8')),
  ]);
  const link = { version: 1, previous, sequence: 2 ** 32 + 2, contentHash: await contentHash('{"ü":1}') };
  expect(toHex(await linkHash(link))).toBe(toHex(sha256(input)));
});

it('refuses what is no place, no hash and no version it knows', async () => {
  const link = { version: 1, previous: genesis(), sequence: 1, contentHash: genesis() };
  await expect(linkHash({ ...link, sequence: 0 })).rejects.toThrow(RangeError);
  await expect(linkHash({ ...link, version: 2 })).rejects.toThrow(RangeError);
  await expect(linkHash({ ...link, previous: new Uint8Array(31) })).rejects.toThrow(RangeError);
  expect(() => fromHex('abc')).toThrow(RangeError);
});

it('writes the content of an event the same whatever the order of its keys', () => {
  const event = {
    at: new Date('2026-05-04T12:00:00Z'),
    ...{ actorKind: 'rater', actorId: null, actorName: 'R', action: 'x', recordType: 'y', recordId: 'z' },
    ...{
      houseId: null,
      before: undefined,
      after: { b: 1e21, a: [0.1, -0, 1e-7] },
      reason: null,
      requestId: null,
    },
  };
  const reversed = Object.fromEntries(Object.entries(event).reverse()) as typeof event;
  expect(eventContent(reversed)).toBe(eventContent(event));
  expect(eventContent(event)).toContain(
    '"after":{"a":[0.1,0,1e-7],"b":1e+21},"at":"2026-05-04T12:00:00.000Z"',
  );
});

it('finds a whole log good, and its heads of any time', async () => {
  const records = await chain(contents);
  const heads = [0, 2, 5].map((n) => headOf(records.slice(0, n)));
  const report = await checkChain(records, heads, sha256);
  expect(report).toMatchObject({ good: 5, head: { sequence: 5, hash: headOf(records).hash } });
  expect(report.broken).toBeUndefined();
  expect(report.heads.map(({ holds }) => holds)).toEqual([true, true, true]);
});

const tamperings: [string, number, (records: ChainRecord[]) => ChainRecord[]][] = [
  ['a changed content', 3, (list) => list.map((r) => (r.sequence === 3 ? { ...r, content: '{"a":9}' } : r))],
  [
    'columns that say something else',
    2,
    (list) => list.map((r) => ({ ...r, columns: r.sequence === 2 ? 'x' : r.content })),
  ],
  [
    'an event that is gone',
    4,
    (list) => list.map((r) => (r.sequence === 4 ? { ...r, content: undefined } : r)),
  ],
  ['a record taken out', 2, (list) => list.filter((r) => r.sequence !== 2)],
  ['the beginning taken away', 1, (list) => list.slice(2)],
  [
    'two records that changed places',
    2,
    ([a, b, c, ...rest]) => [a!, { ...c!, sequence: 2 }, { ...b!, sequence: 3 }, ...rest],
  ],
  ['another version', 1, (list) => list.map((r) => ({ ...r, version: 2 }))],
  [
    'one put between, the later ones renumbered',
    3,
    (list) => [
      ...list.slice(0, 2),
      { ...list[2]!, content: '{"a":0}' },
      ...list.slice(2).map((r) => ({ ...r, sequence: r.sequence + 1 })),
    ],
  ],
];
it.each(tamperings)('finds %s at record %i', async (_what, place, tamper) => {
  const records = await chain(contents);
  const report = await checkChain(tamper(records), [headOf(records)], sha256);
  expect(report.broken?.sequence).toBe(place);
  expect(report.good).toBe(place - 1);
  expect(report.heads[0]!.holds).toBe(false);
});

it('finds a number that comes a second time', async () => {
  const records = await chain(contents);
  const twice = [...records.slice(0, 2), records[1]!, ...records.slice(2)];
  const { good, broken } = await checkChain(twice, [], sha256);
  expect({ good, broken }).toEqual({
    good: 2,
    broken: { sequence: 2, words: 'its number comes a second time' },
  });
});

it('finds one record hashed anew at the one that no longer follows it', async () => {
  const records = await chain(contents);
  const forged = await chain(['{"a":1}', '{"a":9}']);
  const report = await checkChain([records[0]!, forged[1]!, ...records.slice(2)], [], sha256);
  expect(report.broken).toEqual({ sequence: 3, words: 'it does not follow record 2 as that record is now' });
});

it('finds a cut tail, and a log written anew, only by a head kept elsewhere', async () => {
  const records = await chain(contents);
  const cut = records.slice(0, 3);
  expect((await checkChain(cut, [], sha256)).broken).toBeUndefined();
  const byHead = await checkChain(cut, [headOf(records)], sha256);
  expect(byHead.heads[0]).toMatchObject({ holds: false });
  expect(byHead.heads[0]!.words).toBe('the log ends at record 3; records 4 to 5 are missing');

  const anew = await chain(['{"a":1}', '{"a":9}', ...contents.slice(2)]);
  expect((await checkChain(anew, [], sha256)).broken).toBeUndefined();
  const found = await checkChain(anew, [headOf(records)], sha256);
  expect(found.heads[0]!.words).toBe('record 5 has another hash: the log before it was written anew');
});

const lines = async function* (text: string[]) {
  yield* text;
};
it('reads an exported log, and names the line that is none', async () => {
  const records = await chain(contents);
  const text = [
    JSON.stringify({ format: 'countercheck-event-log/1', head: headOf(records) }),
    ...records.map(({ previous, hash, ...rest }) =>
      JSON.stringify({ ...rest, previous: toHex(previous), hash: toHex(hash) }),
    ),
  ];
  const log = await readLog(lines(text));
  const report = await checkChain(log.records, [log.head], sha256);
  expect(report).toMatchObject({ good: 5, heads: [{ holds: true }] });

  await expect(readLog(lines(['{}']))).rejects.toThrow('Line 1');
  const bad = await readLog(lines([...text.slice(0, 3), 'no json']));
  await expect(checkChain(bad.records)).rejects.toThrow('Line 4 is no JSON');
});
