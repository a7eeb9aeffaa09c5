import { randomUUID } from 'node:crypto';
import { algorithm, commitmentOf, frameLine, makeFrame } from '@countercheck/sampling';
import type { Db } from '../../apps/api/src/kernel/database/database.ts';
import type { Fixture } from '../support/fixture.ts';

/** A finished draw of one house, and a batch without any. */
export async function sampledRecords(db: Db, { house, users, builder }: Fixture) {
  const row = { id: house.id, rater: users.rater.id, builder: builder.id, kind: 'final' };
  const frame = makeFrame([{ ...row, date: '2026-03-01', weight: 1 }]);
  const seed = 'ab'.repeat(32);
  const drawId = randomUUID();
  await db.draw.create({
    data: {
      ...{ id: drawId, title: 'March', purpose: 'file_review', algorithm, method: 'simple' },
      ...{ size: { count: 1 }, commitment: commitmentOf(seed), sealedSeed: 'not the question here' },
      committedById: users.quality.id,
      committedBy: users.quality.name,
      frame: {
        create: {
          ...{ filter: {}, count: 1, hash: frame.hash, lines: frame.rows.map(frameLine).join('') },
          ...{ frozenById: users.quality.id, frozenBy: users.quality.name },
        },
      },
      result: {
        create: {
          ...{ seed, witness: '', size: 1, recordHash: '0'.repeat(64) },
          ...{ drawnById: users.quality.id, drawnBy: users.quality.name },
        },
      },
      members: {
        create: { position: 0, houseId: house.id, raterId: users.rater.id, chanceOf: 1n, chanceIn: 1n },
      },
    },
  });
  const { id: batchId } = await db.batch.create({
    data: {
      ...{ title: 'Lane', builderId: builder.id, communityId: builder.communityId },
      ...{ trades: 'Same crew', rulesKey: 'one-in-seven' },
      ...{ openedById: users.quality.id, openedBy: users.quality.name },
    },
  });
  return { drawId, batchId };
}
