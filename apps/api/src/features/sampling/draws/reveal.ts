import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { Prisma } from '@countercheck/prisma';
import { draw as drawFrom, recordHashOf } from '@countercheck/sampling';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import type { SecretBox } from '../../../kernel/secrets/box.ts';
import { databaseTime } from '../clock.ts';
import { drawRecord } from './draw-record.ts';
import { findDraw, frameRows, methodOf, sizeOf } from './parts.ts';
import { presentDraw } from './present.ts';

/** Third step: the seed comes to light, and who is drawn follows from it. */
export function revealDraws(app: FastifyInstance, box: SecretBox): void {
  implementInTransaction(app, routes.sampling.reveal, async ({ db, actor, params, body, request }) => {
    const draw = await findDraw(db, params.id);
    if (!draw.frame) throw new AppError('draw-step', 'Its population is not frozen yet.');
    if (draw.result) throw new AppError('draw-step', 'It was drawn already.');
    const { witness } = body;
    const seed = box.open(draw.sealedSeed, draw.id);
    const rows = await frameRows(db, draw.id);
    const frame = { rows, hash: draw.frame.hash };
    const { sample, strata } = drawFrom({
      ...{ frame, seed, witness, method: methodOf(draw), size: sizeOf(draw) },
    });
    const drawnAt = await databaseTime(db);
    const recordHash = recordHashOf(drawRecord(draw, rows, { seed, witness, drawnAt, strata, sample }));
    await db.drawResult.create({
      data: {
        ...{ drawId: draw.id, seed, witness, size: sample.length, recordHash, drawnAt },
        strata: strata === null ? Prisma.DbNull : (strata as unknown as Prisma.InputJsonArray),
        drawnById: actor.id,
        drawnBy: actor.name,
      },
    });
    await db.drawMember.createMany({
      data: sample.map(({ id, position, chance: [of, among] }) => ({
        ...{ drawId: draw.id, position, houseId: id, raterId: rows[position]!.rater },
        ...{ chanceOf: BigInt(of), chanceIn: BigInt(among) },
      })),
    });
    await record(db, actor, request.id, {
      action: 'draw revealed',
      recordType: 'draw',
      recordId: draw.id,
      after: { seed, witness, drawn: sample.length, recordHash },
    });
    return presentDraw(db, await findDraw(db, draw.id));
  });
}
