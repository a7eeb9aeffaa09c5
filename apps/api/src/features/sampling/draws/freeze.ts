import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import { frameLine, makeFrame, sampleSize } from '@countercheck/sampling';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { companyOptions } from '../../assessment/index.ts';
import { countFiles, filesOf } from '../../population/index.ts';
import { databaseTime } from '../clock.ts';
import { nativeHasher } from '../native-hash.ts';
import { findDraw, purposeOf, sizeOf, weighingOf } from './parts.ts';
import { presentDraw } from './present.ts';
import { weighed } from './weigh.ts';

/** Second step: the population as it is now, sorted, hashed and kept. */
export function freezeFrames(app: FastifyInstance): void {
  implementInTransaction(app, routes.sampling.countPopulation, async ({ db, params, body }) => {
    const draw = await findDraw(db, params.id);
    const counted = await countFiles(db, body, purposeOf(draw), (await companyOptions(db)).timezone);
    const files = counted.reduce((sum, each) => sum + each.files, 0);
    const wanted = files === 0 ? 0 : sampleSize(sizeOf(draw), files);
    const strata = counted.length;
    return {
      files,
      raters: new Set(counted.map(({ rater }) => rater)).size,
      builders: new Set(counted.map(({ builder }) => builder)).size,
      strata,
      wouldDraw: draw.method === 'stratified' ? Math.max(wanted, strata) : wanted,
    };
  });

  implementInTransaction(app, routes.sampling.freezeFrame, async ({ db, actor, params, body, request }) => {
    const draw = await findDraw(db, params.id);
    if (draw.frame) throw new AppError('draw-step', 'Its population was frozen already.');
    const files = await filesOf(db, body, purposeOf(draw), (await companyOptions(db)).timezone);
    if (files.length === 0) throw new AppError('draw-empty');
    const frame = makeFrame(await weighed(db, files, weighingOf(draw)), nativeHasher());
    const frozen = { count: frame.rows.length, hash: frame.hash };
    await db.drawFrame.create({
      data: {
        ...{ drawId: draw.id, ...frozen, filter: body as Prisma.InputJsonObject },
        lines: frame.rows.map(frameLine).join(''),
        frozenAt: await databaseTime(db),
        frozenById: actor.id,
        frozenBy: actor.name,
      },
    });
    await record(db, actor, request.id, {
      action: 'draw frozen',
      recordType: 'draw',
      recordId: draw.id,
      after: { filter: body, ...frozen },
    });
    return presentDraw(db, await findDraw(db, draw.id));
  });
}
