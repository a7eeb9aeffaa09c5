import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { reassess } from '../assessment/index.ts';
import { houseSummaryInclude, lockHouse, presentHouseSummary } from '../houses/index.ts';
import { presentRelease } from './present.ts';
import { hashOf, resultOf } from './seal.ts';
import { sealProblems } from './seal-problems.ts';

/** What was released, read from the seal and never from the records of today. */
export function readSealed(app: FastifyInstance): void {
  implementInTransaction(app, routes.review.sealed, async ({ db, params }) => {
    const row = found(await db.release.findUnique({ where: params }), 'release');
    const problems = await sealProblems(db, row);
    return {
      ...presentRelease(row),
      content: row.content,
      recomputedHash: hashOf(row.content),
      intact: problems.length === 0,
      problems,
    };
  });

  implementInTransaction(app, routes.review.result, async ({ db, params }) => {
    const row = found(
      await db.release.findFirst({ where: { houseId: params.id }, orderBy: { revision: 'desc' } }),
      'released result',
    );
    return { ...presentRelease(row), releaseId: row.id, ...resultOf(row.content) };
  });
}

/** A sealed file stays as it is; what comes after is a new revision. */
export function openFilesAgain(app: FastifyInstance): void {
  implementInTransaction(app, routes.review.openAgain, async ({ db, actor, params, body, request }) => {
    const house = await lockHouse(db, params.id);
    if (house.stage !== 'released') throw new AppError('conflict', 'The file is open already.');
    const row = await db.house.update({ where: params, data: { revision: { increment: 1 } } });
    await record(db, actor, request.id, {
      action: 'revision opened',
      recordType: 'house',
      recordId: house.id,
      houseId: house.id,
      before: { revision: row.revision - 1 },
      after: { revision: row.revision },
      reason: body.reason,
    });
    await moveStage(db, actor, request.id, house, 'returned', body.reason);
    await reassess(db, actor, request.id, house.id);
    return presentHouseSummary(
      await db.house.findUniqueOrThrow({ where: params, include: houseSummaryInclude }),
    );
  });
}
