import { expect, it } from 'vitest';
import {
  canonicalText,
  checkProof,
  contentHash,
  genesis,
  linkHash,
  toHex,
  type Head,
  type Proof,
} from './index.ts';

const result = canonicalText({ format: 'countercheck-result/1', items: [] });

/** A release at record 2 of a log of five. */
async function made(): Promise<{ proof: Proof; heads: Head[] }> {
  const resultHash = toHex(await contentHash(result));
  const released = canonicalText({
    ...{ at: '2026-05-04T12:00:00.000Z', actorName: 'Quality Desk', action: 'file released', recordId: 'r1' },
    after: { revision: 1, hash: 'f'.repeat(64), resultHash },
  });
  const contents = ['{"a":1}', released, '{"a":3}', '{"a":4}', '{"a":5}'];
  const heads: Head[] = [];
  let previous: Uint8Array = genesis();
  for (const [i, content] of contents.entries()) {
    const link = { version: 1, previous, sequence: i + 1, contentHash: await contentHash(content) };
    previous = await linkHash(link);
    const at = '2026-05-05T00:00:00.000Z';
    heads.push({ format: 'countercheck-log-head/1', sequence: i + 1, hash: toHex(previous), at });
  }
  const proof: Proof = {
    format: 'countercheck-release-proof/1',
    release: { id: 'r1', revision: 1, hash: 'f'.repeat(64) },
    record: { sequence: 2, version: 1, previous: heads[0]!.hash, content: released, hash: heads[1]!.hash },
    path: await Promise.all(
      contents.slice(2).map(async (text) => ({ version: 1, contentHash: toHex(await contentHash(text)) })),
    ),
    head: heads[4]!,
    result,
  };
  return { proof, heads };
}
const failing = async (proof: Proof, kept?: Head) =>
  (await checkProof(proof, kept)).filter(({ holds }) => !holds).map(({ what }) => what);

it('holds for what was released, and for every head kept since', async () => {
  const { proof, heads } = await made();
  expect(await failing(proof)).toEqual([]);
  for (const kept of heads.slice(1)) expect(await failing(proof, kept)).toEqual([]);
  expect(await failing({ ...proof, path: [], head: heads[1]! })).toEqual([]);
});

it('fails at what was changed', async () => {
  const { proof, heads } = await made();
  const { record } = proof;
  const content = record.content.replace('Quality Desk', 'Somebody');
  expect(await failing({ ...proof, record: { ...record, content } })).toEqual(['record', 'path']);
  expect(await failing({ ...proof, release: { ...proof.release, hash: 'e'.repeat(64) } })).toEqual([
    'release',
  ]);
  expect(await failing({ ...proof, record: { ...record, content: 'x' } })).toEqual([
    'record',
    'release',
    'result',
    'path',
  ]);
  expect(await failing({ ...proof, result: result.replace('[]', '[1]') })).toEqual(['result']);
  expect(await failing({ ...proof, path: proof.path.toReversed() })).toEqual(['path']);
  expect(await failing({ ...proof, head: heads[3]! })).toEqual(['path']);
});

it('says what a kept head cannot tell', async () => {
  const { proof, heads } = await made();
  expect(await failing(proof, heads[0])).toEqual(['head']);
  expect(await failing(proof, { ...heads[4]!, sequence: 6 })).toEqual(['head']);
  expect(await failing(proof, { ...heads[3]!, hash: '0'.repeat(64) })).toEqual(['head']);
});
