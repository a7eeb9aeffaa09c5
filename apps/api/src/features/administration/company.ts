import type { FastifyInstance } from 'fastify';
import { routes, type Company } from '@countercheck/contracts';
import type { Company as Row } from '@countercheck/prisma';
import type { Actor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { given } from '../../kernel/records/given.ts';
import { decisionRuleOf, reassess } from '../assessment/index.ts';
import { currentCompany, notYetInForce } from '../rule-sets/index.ts';

function present({ id: _id, guardBandFactor, updatedAt, ...options }: Row): Company {
  return { ...options, decisionRule: decisionRuleOf(guardBandFactor), updatedAt: updatedAt.toISOString() };
}

/**
 * Another decision rule, or another day of the readings by another time zone, holds for every house that is still
 * open; released files stay as they were sealed.
 */
async function judgeOpenHousesAgain(db: Db, actor: Actor, requestId: string): Promise<void> {
  const houses = await db.house.findMany({
    where: { stage: { not: 'released' }, readings: { some: {} } },
    select: { id: true },
    orderBy: { id: 'asc' },
  });
  for (const { id } of houses) await reassess(db, actor, requestId, id);
}

function timezoneExists(timezone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: timezone });
    return true;
  } catch {
    return false;
  }
}

async function checkDefault(db: Db, id: string | null | undefined, timezone: string): Promise<void> {
  if (!id) return;
  const set = await db.ruleSet.findUnique({ where: { id }, omit: { body: true } });
  if (!set?.offered) throw invalid('defaultRuleSetId', 'Choose a rule set that is offered');
  const early = notYetInForce(set, timezone);
  if (early !== null) throw invalid('defaultRuleSetId', `${early} Choose it on that day or later.`);
}

export function keepCompany(app: FastifyInstance): void {
  implementInTransaction(app, routes.administration.company, async ({ db }) =>
    present(await currentCompany(db)),
  );

  implementInTransaction(app, routes.administration.changeCompany, async ({ db, actor, body, request }) => {
    if (body.timezone !== undefined && !timezoneExists(body.timezone))
      throw invalid('timezone', 'There is no such time zone');
    const before = await currentCompany(db);
    await checkDefault(db, body.defaultRuleSetId, body.timezone ?? before.timezone);
    const { decisionRule, ...options } = body;
    const data = given({
      ...options,
      guardBandFactor: decisionRule && ('factor' in decisionRule ? decisionRule.factor : null),
    });
    const after = await db.company.update({ where: { id: 1 }, data });
    const changed = Object.keys(data) as (keyof typeof data)[];
    const only = (row: Row) => Object.fromEntries(changed.map((key) => [key, row[key]]));
    await record(db, actor, request.id, {
      action: 'company changed',
      recordType: 'company',
      recordId: '1',
      before: only(before),
      after: only(after),
    });
    if (after.guardBandFactor !== before.guardBandFactor || after.timezone !== before.timezone)
      await judgeOpenHousesAgain(db, actor, request.id);
    return present(after);
  });
}
