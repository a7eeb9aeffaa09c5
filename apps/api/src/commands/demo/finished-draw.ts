import { addDays } from 'date-fns';
import { createHash } from 'node:crypto';
import type { PopulationFilter } from '@countercheck/contracts';
import { Prisma } from '@countercheck/prisma';
import type { Demo, YearStory } from '@countercheck/prisma/demo';
import { algorithm, commitmentOf, draw, frameLine, makeFrame, recordHashOf } from '@countercheck/sampling';
import { companyOptions, dayAt } from '../../features/assessment/index.ts';
import { filesOf } from '../../features/population/index.ts';
import { drawRecord } from '../../features/sampling/draws/draw-record.ts';
import { findDraw } from '../../features/sampling/draws/parts.ts';
import { nativeHasher } from '../../features/sampling/native-hash.ts';
import { system } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';
import type { SecretBox } from '../../kernel/secrets/box.ts';
import { review } from './fill-desk.ts';

const title = 'One file in ten of what was released until autumn';
/** so many of the drawn files are not reviewed yet */
const open = 3;

/** A draw over most of the past year with every step taken: what it drew was reviewed, but for the last few. */
export async function drawPast(db: Db, cast: Demo['cast'], year: YearStory[], box: SecretBox): Promise<void> {
  const { id: qualityId, name } = cast.quality;
  const { timezone } = await companyOptions(db);
  const before = (days: number) => addDays(new Date(), -days);
  const seed = createHash('sha256')
    .update(`demo draw of ${dayAt(before(34), timezone)}`)
    .digest('hex');
  const size = { share: 1000 };
  const { id: drawId } = await db.draw.create({
    data: {
      ...{ title, purpose: 'file_review', algorithm, method: 'simple', size, weighing: Prisma.DbNull },
      ...{
        commitment: commitmentOf(seed),
        committedAt: before(34),
        committedById: qualityId,
        committedBy: name,
      },
      sealedSeed: box.seal(seed, 'demo'),
    },
  });
  const filter: PopulationFilter = {
    ...{ from: null, to: dayAt(before(60), timezone), state: 'released', leaveOutDone: true },
    ...{ raterId: null, builderId: null, kind: null },
  };
  const files = await filesOf(db, filter, 'file-review', timezone);
  const frame = makeFrame(
    files.map(({ failedFirst: _, ...file }) => ({ ...file, weight: 1 })),
    nativeHasher(),
  );
  await db.drawFrame.create({
    data: {
      ...{ drawId, filter, count: frame.rows.length, hash: frame.hash },
      ...{
        lines: frame.rows.map(frameLine).join(''),
        frozenAt: before(33),
        frozenById: qualityId,
        frozenBy: name,
      },
    },
  });
  const [witness, drawnAt] = ['Dice of the builders’ round table: 3 6 1', before(32)];
  const { sample, strata } = draw({ frame, seed, witness, method: 'simple', size });
  const told = drawRecord(await findDraw(db, drawId), frame.rows, { seed, witness, drawnAt, strata, sample });
  await db.drawResult.create({
    data: {
      ...{ drawId, seed, witness, strata: Prisma.DbNull, size: sample.length, drawnAt },
      ...{ recordHash: recordHashOf(told), drawnById: qualityId, drawnBy: name },
    },
  });
  await db.drawMember.createMany({
    data: sample.map(({ id: houseId, position, chance: [of, among] }) => ({
      ...{ drawId, position, houseId, raterId: frame.rows[position]!.rater },
      ...{ chanceOf: BigInt(of), chanceIn: BigInt(among) },
    })),
  });
  const dueOn = addDays(new Date(), 12);
  const orderedAt = before(31);
  await db.drawOrders.create({
    data: {
      ...{ drawId, dueOn, ordered: sample.length, already: 0 },
      ...{ orderedAt, orderedById: qualityId, orderedBy: name },
    },
  });
  await record(db, system, null, {
    ...{ action: 'draw ordered', recordType: 'draw', recordId: drawId },
    after: { dueOn: dayAt(dueOn, timezone), ordered: sample.length, already: 0 },
  });
  const byHouse = new Map(year.map((story) => [story.house.id, story]));
  const order = { source: 'draw' as const, drawId, reason: `Drawn: ${title}`, orderedAt, dueOn };
  for (const [i, { id: houseId, position }] of sample.entries()) {
    const story = byHouse.get(houseId);
    if (story && i < sample.length - open)
      await review(db, cast, story, i === 2, { ...order, doneAt: before(28 - i) });
    else
      await db.fileReview.create({
        data: {
          ...{ ...order, houseId, revision: 1, raterId: frame.rows[position]!.rater },
          ...{ orderedById: qualityId, orderedBy: name },
        },
      });
  }
}
