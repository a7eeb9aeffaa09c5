import type { FastifyInstance } from 'fastify';
import { routes, type Company } from '@countercheck/contracts';
import type { Company as Row } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { given } from '../../kernel/records/given.ts';
import { currentCompany } from '../rule-sets/index.ts';

function present({ id: _id, updatedAt, ...options }: Row): Company {
  return { ...options, updatedAt: updatedAt.toISOString() };
}

function timezoneExists(timezone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: timezone });
    return true;
  } catch {
    return false;
  }
}

async function checkDefault(db: Db, id: string | null | undefined): Promise<void> {
  if (!id) return;
  const set = await db.ruleSet.findUnique({ where: { id }, select: { offered: true } });
  if (!set?.offered) throw invalid('defaultRuleSetId', 'Choose a rule set that is offered');
}

export function keepCompany(app: FastifyInstance): void {
  implementInTransaction(app, routes.administration.company, async ({ db }) =>
    present(await currentCompany(db)),
  );

  implementInTransaction(app, routes.administration.changeCompany, async ({ db, actor, body, request }) => {
    if (body.timezone !== undefined && !timezoneExists(body.timezone))
      throw invalid('timezone', 'There is no such time zone');
    await checkDefault(db, body.defaultRuleSetId);
    const before = await currentCompany(db);
    const after = await db.company.update({ where: { id: 1 }, data: given(body) });
    const changed = Object.keys(given(body)) as (keyof typeof body)[];
    const only = (row: Row) => Object.fromEntries(changed.map((key) => [key, row[key]]));
    await record(db, actor, request.id, {
      action: 'company changed',
      recordType: 'company',
      recordId: '1',
      before: only(before),
      after: only(after),
    });
    return present(after);
  });
}
