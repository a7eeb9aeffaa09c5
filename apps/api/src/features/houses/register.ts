import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { record } from '../../kernel/records/events.ts';
import { reassess } from '../assessment/index.ts';
import { communityAndPlan, refuseSameLot, ruleSetFor } from './belonging.ts';
import { loadHouse } from './load.ts';
import { addParts, newParts } from './parts.ts';

export function registerHouses(app: FastifyInstance): void {
  implementInTransaction(app, routes.houses.register, async ({ db, actor, body, request }) => {
    const { parts, ruleSetId: asked, ...facts } = body;
    const community = await communityAndPlan(db, facts.communityId, facts.planId);
    await refuseSameLot(db, community, facts.lot);
    const ruleSetId = await ruleSetFor(db, asked);
    const { id } = await db.house.create({ data: { ...facts, ruleSetId, builderId: community.builderId } });
    await addParts(db, newParts(id, parts));
    await record(db, actor, request.id, {
      action: 'house registered',
      recordType: 'house',
      recordId: id,
      houseId: id,
      after: { ...body, ruleSetId },
    });
    await reassess(db, actor, request.id, id);
    return loadHouse(db, actor, id);
  });
}
