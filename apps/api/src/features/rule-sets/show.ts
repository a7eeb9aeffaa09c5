import type { FastifyInstance } from 'fastify';
import type { Prisma } from '@countercheck/prisma';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { currentCompany } from './company.ts';

/** Lists do without the body: it is the whole set. */
const summary = {
  omit: { body: true },
  include: { _count: { select: { houses: true } } },
} satisfies Prisma.RuleSetDefaultArgs;
type Row = Prisma.RuleSetGetPayload<typeof summary>;

function present({ _count, effectiveOn, publishedAt, id, key, version, title, hash, offered }: Row) {
  return {
    ...{ id, key, version, title, hash, offered },
    effectiveOn: effectiveOn.toISOString().slice(0, 10),
    publishedAt: publishedAt.toISOString(),
    houses: _count.houses,
  };
}

export function showRuleSets(app: FastifyInstance): void {
  implementInTransaction(app, routes.service.ruleSets, async ({ db }) => {
    const rows = await db.ruleSet.findMany({
      ...summary,
      orderBy: [{ key: 'asc' }, { publishedAt: 'desc' }, { version: 'desc' }],
    });
    return rows.map(present);
  });

  implementInTransaction(app, routes.service.ruleSet, async ({ db, params }) => {
    const { include } = summary;
    const row = found(await db.ruleSet.findUnique({ where: params, include }), 'rule set');
    return { ...present(row), body: row.body };
  });

  implementInTransaction(app, routes.service.offerRuleSet, async ({ db, actor, params, body, request }) => {
    const before = found(await db.ruleSet.findUnique({ where: params, ...summary }), 'rule set');
    const company = await currentCompany(db);
    if (!body.offered && company.defaultRuleSetId === before.id)
      throw new AppError('conflict', 'It is the default for new houses; choose another default first.');
    const row = await db.ruleSet.update({ where: params, data: { offered: body.offered }, ...summary });
    await record(db, actor, request.id, {
      action: 'rule set offered',
      recordType: 'rule set',
      recordId: row.id,
      before: { offered: before.offered },
      after: { offered: row.offered },
    });
    return present(row);
  });
}
