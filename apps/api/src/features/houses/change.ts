import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { given } from '../../kernel/records/given.ts';
import { reassess } from '../assessment/index.ts';
import { communityAndPlan, refuseSameLot } from './belonging.ts';
import { loadHouse, lockHouse, refuseSealed } from './load.ts';
import { changeParts } from './parts.ts';

export function changeHouses(app: FastifyInstance): void {
  implementInTransaction(app, routes.houses.change, async ({ db, actor, params, body, request }) => {
    const { expectedUpdatedAt, parts, ...changes } = body;
    const locked = await lockHouse(db, params.id);
    if (locked.updatedAt.getTime() !== Date.parse(expectedUpdatedAt)) throw new AppError('conflict');
    refuseSealed(locked);
    const before = await loadHouse(db, actor, params.id);
    const facts = given(changes);
    const planId = facts.planId === undefined ? (before.plan?.id ?? null) : facts.planId;
    const community = await communityAndPlan(db, facts.communityId ?? before.community.id, planId);
    if (community.builderId !== locked.builderId)
      throw invalid(
        'communityId',
        `${community.name} belongs to another builder; the house stays with its own.`,
      );
    await refuseSameLot(db, community, facts.lot ?? before.lot, params.id);
    await db.house.update({ where: params, data: { ...facts, updatedAt: new Date() } });
    if (parts) await changeParts(db, params.id, parts);

    const was: Record<string, unknown> = {
      ...before,
      communityId: before.community.id,
      planId: before.plan?.id,
    };
    const { systems, rooms, appliances } = before;
    await record(db, actor, request.id, {
      action: 'house changed',
      recordType: 'house',
      recordId: params.id,
      houseId: params.id,
      before: {
        ...Object.fromEntries(Object.keys(facts).map((key) => [key, was[key] ?? null])),
        ...(parts ? { parts: { systems, rooms, appliances } } : {}),
      },
      after: { ...facts, ...(parts ? { parts } : {}) },
    });
    await reassess(db, actor, request.id, params.id);
    return loadHouse(db, actor, params.id);
  });
}
