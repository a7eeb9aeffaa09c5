import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { NotReadyKind } from '@countercheck/prisma';
import { asSystem } from '../../kernel/database/as-system.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { companyOptions } from '../assessment/index.ts';
import { startOfDay } from '../visits/index.ts';
import { placeSelect, presentPlace } from './requests/present.ts';

interface Count {
  id: string;
  name: string;
  state: 'submitted' | 'not_ready';
  kind: NotReadyKind | null;
  visits: number;
}

const newestShown = 25;

export function countNotReady(app: FastifyInstance): void {
  implementInTransaction(app, routes.scheduling.notReady, async ({ db, actor, query }) => {
    const { timezone } = await companyOptions(db);
    const from = startOfDay(query.from, timezone);
    const to = startOfDay(query.to, timezone, 1);
    // Row-level security leaves a builder its own houses.
    const counts = await db.$queryRaw<Count[]>`
      SELECT b.id::text, b.name, v.state::text, v.not_ready_kind::text AS kind, count(*)::int AS visits
      FROM visits v JOIN houses h ON h.id = v.house_id JOIN builders b ON b.id = h.builder_id
      WHERE v.state IN ('submitted', 'not_ready') AND v.starts_at >= ${from} AND v.starts_at < ${to}
      GROUP BY b.id, b.name, v.state, v.not_ready_kind ORDER BY b.name, b.id`;
    const builders = new Map<string, ReturnType<typeof line>>();
    for (const each of counts) {
      const own = builders.get(each.id) ?? line(each);
      builders.set(each.id, own);
      own.visits += each.visits;
      if (each.state === 'submitted') continue;
      own.notReady += each.visits;
      const kind = each.kind ?? 'other';
      own.causes[kind] = (own.causes[kind] ?? 0) + each.visits;
    }
    const rows = await db.visit.findMany({
      where: { state: 'not_ready', startsAt: { gte: from, lt: to } },
      include: { house: { select: placeSelect } },
      orderBy: [{ startsAt: 'desc' }, { id: 'desc' }],
      take: newestShown,
    });
    const raters = await asSystem(db, actor, () =>
      db.user.findMany({
        where: { id: { in: rows.map(({ raterId }) => raterId) } },
        select: { id: true, name: true },
      }),
    );
    const names = new Map(raters.map(({ id, name }) => [id, name]));
    return {
      builders: [...builders.values()],
      newest: rows.map((row) => ({
        visitId: row.id,
        house: presentPlace(row.house),
        rater: names.get(row.raterId) ?? '',
        at: row.startsAt.toISOString(),
        kind: row.notReadyKind ?? 'other',
        cause: row.cause,
      })),
    };
  });
}

function line({ id, name }: Count) {
  const causes: Partial<Record<NotReadyKind, number>> = {};
  return { builder: { id, name }, visits: 0, notReady: 0, causes };
}
