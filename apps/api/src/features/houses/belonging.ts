import type { Db } from '../../kernel/database/database.ts';
import { AppError, found, invalid } from '../../kernel/problems/app-error.ts';
import { notYetInForce } from '../rule-sets/index.ts';

/** A community, and a plan of the same builder. */
export async function communityAndPlan(db: Db, communityId: string, planId: string | null) {
  const community = found(await db.community.findUnique({ where: { id: communityId } }), 'community');
  if (planId !== null) {
    const plan = found(await db.plan.findUnique({ where: { id: planId } }), 'plan');
    if (plan.builderId !== community.builderId)
      throw invalid('planId', `The plan “${plan.name}” belongs to another builder than ${community.name}.`);
  }
  return community;
}

/** The rule set a new house is pinned to: the one asked for, or else the company's default. */
export async function ruleSetFor(db: Db, asked: string | undefined): Promise<string> {
  const company = await db.company.findUniqueOrThrow({ where: { id: 1 } });
  const id = asked ?? company.defaultRuleSetId;
  if (id === null)
    throw invalid('ruleSetId', 'Choose a rule set: the company has none that it uses by default.');
  const ruleSet = found(await db.ruleSet.findUnique({ where: { id }, omit: { body: true } }), 'rule set');
  if (asked !== undefined && !ruleSet.offered)
    throw invalid('ruleSetId', `${ruleSet.title} (${ruleSet.version}) is no longer offered.`);
  const early = notYetInForce(ruleSet, company.timezone);
  if (early !== null) throw invalid('ruleSetId', early);
  return id;
}

/** Says in words what the constraint would refuse without any. */
export async function refuseSameLot(
  db: Db,
  community: { id: string; name: string },
  lot: string,
  except?: string,
): Promise<void> {
  const same = await db.house.findFirst({
    where: { communityId: community.id, lot, ...(except ? { id: { not: except } } : {}) },
    select: { address: true },
  });
  if (same)
    throw new AppError('already-exists', `Lot ${lot} of ${community.name} is registered: ${same.address}.`);
}
