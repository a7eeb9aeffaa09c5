import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { shareBounds } from '@countercheck/sampling';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { pageAnswer } from '../../../kernel/records/page.ts';
import { companyOptions } from '../../assessment/index.ts';
import { countFirstTime } from './first-time.ts';
import { groupFailed } from './groups.ts';
import { findRepeats } from './repeats.ts';
import { timesWaited } from './waiting.ts';

const confidence = 0.95;

export function readFailedBoard(app: FastifyInstance): void {
  implementInTransaction(app, routes.failedBoard.groups, async ({ db, query }) => {
    const { timezone } = await companyOptions(db);
    const rows = await groupFailed(db, query.by, query, timezone);
    return pageAnswer(rows, rows[0]?.total ?? 0, query);
  });

  implementInTransaction(app, routes.failedBoard.firstTime, async ({ db, query }) => {
    const { timezone } = await companyOptions(db);
    const rows = await countFirstTime(db, query.by, query, timezone);
    const items = rows.map(({ key, label, decided, passed }) => ({
      ...{ key, label, decided, passed, rate: passed / decided },
      ...shareBounds(passed, decided, confidence),
    }));
    return pageAnswer(items, rows[0]?.total ?? 0, query);
  });

  implementInTransaction(app, routes.failedBoard.repeats, async ({ db, query }) => {
    const { timezone } = await companyOptions(db);
    const rows = await findRepeats(db, query, timezone);
    const items = rows.map(({ builderId, builder, planId, plan, lastAt, ...row }) => ({
      ...row,
      builder: { id: builderId, name: builder },
      plan: planId === null ? null : { id: planId, name: plan ?? '' },
      lastAt: lastAt.toISOString(),
    }));
    return pageAnswer(items, rows[0]?.total ?? 0, query);
  });

  implementInTransaction(app, routes.failedBoard.waiting, async ({ db, query }) => {
    const { timezone } = await companyOptions(db);
    return timesWaited(db, query, timezone);
  });
}
