import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { recordHashOf, repeatDraw, type DrawRecord } from '@countercheck/sampling';
import type { Db } from '../../../kernel/database/database.ts';
import { implement } from '../../../kernel/http/implement.ts';
import { AppError } from '../../../kernel/problems/app-error.ts';
import { nativeHasher } from '../native-hash.ts';
import { drawRecord } from './draw-record.ts';
import { findDraw, frameRows, strataOf } from './parts.ts';

async function wholeRecord(db: Db, id: string): Promise<DrawRecord> {
  const draw = await findDraw(db, id);
  if (!draw.result) throw new AppError('draw-step', 'It is not drawn yet: there is nothing to repeat.');
  const rows = await frameRows(db, id);
  const members = await db.drawMember.findMany({ where: { drawId: id }, orderBy: { position: 'asc' } });
  const { seed, witness, drawnAt } = draw.result;
  const record = drawRecord(draw, rows, {
    ...{ seed, witness, drawnAt, strata: strataOf(draw.result) },
    sample: members.map(({ houseId, position, chanceOf, chanceIn }) => ({
      ...{ id: houseId, position },
      chance: [Number(chanceOf), Number(chanceIn)] as const,
    })),
  });
  return { ...record, recordHash: recordHashOf(record) };
}

export function exportDraws(app: FastifyInstance): void {
  implement(app, routes.sampling.exportDraw, async ({ database, actor, params, reply }) => {
    const record = await database.as(actor, (db) => wholeRecord(db, params.id));
    await reply
      .type('application/json; charset=utf-8')
      .header('content-disposition', `attachment; filename="draw-${params.id}.json"`)
      .send(JSON.stringify(record));
    return null;
  });

  implement(app, routes.sampling.repeatHere, async ({ database, actor, params }) => {
    const { record, kept } = await database.as(actor, async (db) => ({
      record: await wholeRecord(db, params.id),
      kept: (await findDraw(db, params.id)).result!.recordHash,
    }));
    const same = record.recordHash === kept;
    return {
      checks: [
        ...repeatDraw(record, nativeHasher()),
        {
          what: 'Kept hash',
          ok: same,
          detail: same
            ? 'the record is the one whose hash was kept when it was drawn'
            : `kept when drawn was ${kept}; the record gives ${record.recordHash}`,
        },
      ],
    };
  });
}
