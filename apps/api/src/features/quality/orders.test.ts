import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startApp, type TestApp } from '../../../../../tests/support/app.ts';
import { bookVisit } from '../../../../../tests/support/house-life.ts';
import type { Actor } from '../../kernel/actor.ts';
import { system } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { heldRaters, orderFileReviews, orderRetests, refuseHeldRater } from './index.ts';

let t: TestApp;
let quality: Actor;
beforeAll(async () => {
  t = await startApp();
  const { id, name } = t.company.users.quality;
  quality = { kind: 'user', id, name, role: 'quality', builderId: null };
  const visitId = await bookVisit(t, t.company.house.id);
  await as((db) =>
    db.visit.update({ where: { id: visitId }, data: { state: 'submitted', submittedAt: new Date() } }),
  );
});
afterAll(() => t.close());
const as = <T>(work: (db: Db) => Promise<T>) => t.app.database.as(system, work);
const drawId = '0198a000-0000-7000-8000-000000000001';

describe('orders', () => {
  test('a file is under one review at a time, and a draw is counted to the one that stands', async () => {
    const houseId = t.company.house.id;
    const manual = { houseId, source: 'manual' as const, dueOn: '2026-12-01' };
    const [first] = await as((db) => orderFileReviews(db, quality, null, [manual]));
    expect(first).toMatchObject({ houseId, created: true });
    const drawn = await as((db) =>
      orderFileReviews(db, quality, null, [{ ...manual, source: 'draw', drawId }]),
    );
    expect(drawn).toEqual([{ houseId, id: first!.id, created: false }]);
    const row = await as((db) => db.fileReview.findUniqueOrThrow({ where: { id: first!.id } }));
    expect(row).toMatchObject({ drawId, state: 'open', raterId: t.company.users.rater.id, revision: 1 });
  });

  test('a house where nothing was submitted has nothing to look at again', async () => {
    const order = { houseId: t.company.otherHouse.id, source: 'manual' as const, dueOn: '2026-12-01' };
    for (const ordering of [orderFileReviews, orderRetests])
      await expect(as((db) => ordering(db, quality, null, [order]))).rejects.toMatchObject({
        code: 'conflict',
      });
  });

  test('a re-test is ordered of the first rater’s work', async () => {
    const order = { houseId: t.company.house.id, source: 'signal' as const, dueOn: '2026-12-01' };
    const [one] = await as((db) => orderRetests(db, quality, null, [order]));
    const row = await as((db) => db.retest.findUniqueOrThrow({ where: { id: one!.id } }));
    expect(row).toMatchObject({ state: 'ordered', raterId: t.company.users.rater.id, visitId: null });
  });
});

describe('holds', () => {
  test('refuse bookings that begin while they last, in words and in the database', async () => {
    const { rater, quality: by } = t.company.users;
    const from = new Date(Date.now() + 3_600_000);
    const { id } = await as((db) =>
      db.raterHold.create({
        data: { raterId: rater.id, from, reason: 'Copied figures', placedById: by.id, placedBy: by.name },
      }),
    );
    expect(await as((db) => heldRaters(db))).toMatchObject([{ holdId: id, raterId: rater.id }]);
    const later = new Date(from.getTime() + 86_400_000);
    await expect(as((db) => refuseHeldRater(db, rater.id, later))).rejects.toMatchObject({
      code: 'rater-held',
      detail: expect.stringContaining('Copied figures'),
    });
    await as((db) => refuseHeldRater(db, rater.id, new Date()));
    const visit = { houseId: t.company.house.id, raterId: rater.id, kind: 'final' as const };
    await expect(
      as((db) =>
        db.visit.create({ data: { ...visit, startsAt: later, endsAt: new Date(later.getTime() + 1) } }),
      ),
    ).rejects.toThrow(/visits_rater_held/);
    await as((db) => db.raterHold.update({ where: { id }, data: { liftedAt: new Date() } }));
    await as((db) => refuseHeldRater(db, rater.id, later));
  });
});
