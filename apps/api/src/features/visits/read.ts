import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { UserActor } from '../../kernel/actor.ts';
import { asSystem } from '../../kernel/database/as-system.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { companyOptions } from '../assessment/index.ts';
import { startOfDay } from './days.ts';
import { presentVisit, visitHouse, visitParts } from './present.ts';

/** The raters' names. A builder may know who comes, and nothing else about the company's people. */
async function namesOf(db: Db, actor: UserActor, raterIds: string[]): Promise<Map<string, string>> {
  const people = await asSystem(db, actor, () =>
    db.user.findMany({ where: { id: { in: raterIds } }, select: { id: true, name: true } }),
  );
  return new Map(people.map(({ id, name }) => [id, name]));
}

export function readVisits(app: FastifyInstance): void {
  implementInTransaction(app, routes.visits.list, async ({ db, actor, query }) => {
    const { timezone } = await companyOptions(db);
    const raterId = actor.role === 'rater' ? actor.id : query.raterId;
    const where: Prisma.VisitWhereInput = {
      startsAt: {
        ...(query.from ? { gte: startOfDay(query.from, timezone) } : {}),
        ...(query.to ? { lt: startOfDay(query.to, timezone, 1) } : {}),
      },
      ...(raterId ? { raterId } : {}),
      ...(query.houseId ? { houseId: query.houseId } : {}),
      ...(query.state ? { state: query.state } : {}),
    };
    const rows = await db.visit.findMany({
      where,
      include: visitHouse,
      orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    const names = await namesOf(db, actor, [...new Set(rows.map((row) => row.raterId))]);
    return pageAnswer(
      rows.map((row) =>
        presentVisit({ ...row, rater: { id: row.raterId, name: names.get(row.raterId) ?? '' } }),
      ),
      await db.visit.count({ where }),
      query,
    );
  });

  implementInTransaction(app, routes.visits.show, async ({ db, actor, params }) => {
    const where = { ...params, ...(actor.role === 'rater' ? { raterId: actor.id } : {}) };
    return presentVisit(found(await db.visit.findFirst({ where, include: visitParts }), 'visit'));
  });

  implementInTransaction(app, routes.visits.raters, ({ db }) =>
    db.user.findMany({
      where: { role: 'rater', active: true },
      select: { id: true, name: true },
      orderBy: [{ name: 'asc' }, { id: 'asc' }],
    }),
  );
}
