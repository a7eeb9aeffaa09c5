import { afterAll, beforeAll, expect, it } from 'vitest';
import {
  checkChain,
  checkProof,
  contentHash,
  readLog,
  toHex,
  type Head,
  type Proof,
} from '@countercheck/seal';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import { system } from '../../kernel/actor.ts';
import { record } from '../../kernel/records/events.ts';
import { hashOf, resultText } from '../review/index.ts';
import { recordHead } from './record-daily.ts';

let test: TestApp;
let quality: Client;
let builder: Client;
let release: { id: string; houseId: string };

beforeAll(async () => {
  test = await startApp();
  quality = await test.as('quality');
  builder = await test.as('builder');
  const { ruleSet, builder: owner, users } = test.company;
  release = await test.app.database.as(system, async (db) => {
    const house = await addHouse(db, ruleSet.id, owner, { lot: '31', stage: 'released' });
    const content = {
      house: { id: house.id, address: house.address, lot: house.lot, community: { name: 'Field' } },
      ruleSet: { ...ruleSet, title: 'As sealed' },
      verdicts: [],
    };
    const hash = hashOf(content);
    const { id: houseId } = house;
    const by = { releasedBy: users.quality.name, releasedById: users.quality.id };
    const { id } = await db.release.create({ data: { houseId, revision: 1, content, hash, ...by } });
    const resultHash = toHex(await contentHash(resultText(content)));
    await record(db, { ...users.quality, kind: 'user', builderId: null }, null, {
      ...{ action: 'file released', recordType: 'release', recordId: id, houseId },
      after: { revision: 1, hash, resultHash },
    });
    return { id, houseId };
  });
});
afterAll(() => test.close());

const another = () =>
  test.app.database.as(system, (db) =>
    record(db, system, null, { action: 'company changed', recordType: 'company', recordId: '1' }),
  );
const proofFor = async (client: Client) => (await client.get(`/releases/${release.id}/proof`)).json<Proof>();
const fails = async (proof: Proof, kept?: Head) =>
  (await checkProof(proof, kept)).filter(({ holds }) => !holds).map(({ words }) => words);

it('gives builder and quality manager the same proof, which holds', async () => {
  await another();
  const [theirs, ours] = [await proofFor(builder), await proofFor(quality)];
  expect(await fails(theirs)).toEqual([]);
  expect(theirs.record).toEqual(ours.record);
  expect(theirs.path.length).toBeGreaterThan(0);
  // The builder's result, word for word as the page shows it.
  const result = (await builder.get(`/houses/${release.houseId}/result`)).json<Record<string, unknown>>();
  const { house, ruleSet, items, cautions } = result;
  expect(JSON.parse(theirs.result!)).toEqual({
    ...{ format: 'countercheck-result/1', house, ruleSet, items, cautions },
  });
  expect(await fails({ ...theirs, result: theirs.result!.replace('31', '32') })).toEqual([
    'The result is not the one that was released.',
  ]);
});

it('records the head once a day and sends it to whoever keeps it', async () => {
  const admin = await test.as('administrator');
  expect((await admin.patch('/company', { logHeadEmail: 'keeper@audit.example' })).statusCode).toBe(200);
  const both = await Promise.all([recordHead(test.app.database), recordHead(test.app.database)]);
  expect(both.filter(Boolean)).toHaveLength(1);
  expect(await recordHead(test.app.database)).toBe(false);
  const letters = await test.app.database.as(system, (db) =>
    db.outgoingMail.findMany({ where: { about: 'event-log' } }),
  );
  expect(letters).toHaveLength(1);
  expect(letters[0]).toMatchObject({ recipient: 'keeper@audit.example' });
  const sent = JSON.parse(/\{[^}]*\}/.exec(letters[0]!.body)![0]) as Head;
  const { recorded } = (await quality.get('/event-log/head')).json<{ recorded: Head[] }>();
  expect(recorded).toMatchObject([{ sequence: sent.sequence, hash: sent.hash }]);

  // Later proofs lead to the head that was sent, which the builder may have kept.
  await another();
  const proof = await proofFor(builder);
  expect(proof.head).toMatchObject({ sequence: sent.sequence, hash: sent.hash });
  expect(await fails(proof, sent)).toEqual([]);
  expect(await fails(proof, { ...sent, hash: '0'.repeat(64) })).toHaveLength(1);
});

it('exports the whole log, which is checked without the service', async () => {
  const { head } = (await quality.get('/event-log/head')).json<{ head: Head }>();
  const answer = await quality.get('/event-log/records');
  expect(answer.headers['content-type']).toContain('application/x-ndjson');
  const lines = answer.body.trimEnd().split('\n');
  expect(lines).toHaveLength(head.sequence + 1);
  const check = async (text: string[]) => {
    const log = await readLog(
      (async function* () {
        yield* text;
      })(),
    );
    return checkChain(log.records, [log.head, head]);
  };
  expect(await check(lines)).toMatchObject({
    good: head.sequence,
    heads: [{ holds: true }, { holds: true }],
  });
  const forged = lines.map((line, i) =>
    i === 3 ? line.replace('rater', 'RATER').replace('quality', 'QUALITY').replace('system', 'SYSTEM') : line,
  );
  expect((await check(forged)).broken).toMatchObject({ sequence: 3 });
});

it('gives builders no proof that was not made for them', async () => {
  const { builder: owner, ruleSet, users } = test.company;
  const { id } = await test.app.database.as(system, async (db) => {
    const house = await addHouse(db, ruleSet.id, owner, { lot: '32', stage: 'released' });
    const by = { releasedBy: users.quality.name, releasedById: users.quality.id };
    const row = await db.release.create({
      data: { houseId: house.id, revision: 1, content: {}, hash: 'x', ...by },
    });
    await record(db, system, null, {
      ...{ action: 'file released', recordType: 'release', recordId: row.id, houseId: house.id },
      ...{ after: { revision: 1, hash: 'x' }, reason: 'Something for inside only' },
    });
    return row;
  });
  const refused = await builder.get(`/releases/${id}/proof`);
  expect(refused.statusCode).toBe(404);
  expect(refused.body).not.toContain('Something for inside');
  expect((await quality.get(`/releases/${id}/proof`)).json()).toMatchObject({ result: null });
});
