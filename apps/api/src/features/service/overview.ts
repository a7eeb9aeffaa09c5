import { TZDate } from '@date-fns/tz';
import { addDays, format, startOfDay } from 'date-fns';
import type { FastifyInstance } from 'fastify';
import type { Prisma } from '@countercheck/prisma';
import { houseStages, routes } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { currentCompany } from '../rule-sets/index.ts';

const warnDays = 30;

/** Instruments in use whose calibration ends within a month, has ended, or never was. */
function instrumentsDue(db: Db, today: TZDate): Promise<number> {
  const soon = new Date(format(addDays(today, warnDays), 'yyyy-MM-dd'));
  return db.instrument.count({ where: { active: true, calibrations: { none: { dueOn: { gt: soon } } } } });
}

/** A rater's own houses and visits; a builder's are singled out by the database. */
export function overview(app: FastifyInstance): void {
  implementInTransaction(app, routes.service.overview, async ({ db, actor }) => {
    const { timezone } = await currentCompany(db);
    const today = startOfDay(new TZDate(Date.now(), timezone));
    const own: Prisma.VisitWhereInput = actor.role === 'rater' ? { raterId: actor.id } : {};
    const house: Prisma.HouseWhereInput =
      actor.role === 'rater' ? { visits: { some: { ...own, state: { not: 'cancelled' } } } } : {};
    const byStage = await db.house.groupBy({ by: ['stage'], where: house, _count: { _all: true } });
    const inStage = new Map(byStage.map(({ stage, _count }) => [stage, _count._all]));
    return {
      stages: houseStages.map((stage) => ({ stage, houses: inStage.get(stage) ?? 0 })),
      visitsToday: await db.visit.count({
        where: {
          ...own,
          startsAt: { gte: new Date(+today), lt: new Date(+addDays(today, 1)) },
          state: { in: ['booked', 'in_progress', 'submitted'] },
        },
      }),
      openFailedItems: await db.failedItem.count({ where: { state: { not: 'closed' }, house } }),
      reinspectionsAsked: await db.reinspectionRequest.count({ where: { state: 'asked', house } }),
      instrumentsDue: actor.role === 'builder' ? 0 : await instrumentsDue(db, today),
      waitingForReview: inStage.get('in_review') ?? 0,
    };
  });
}
