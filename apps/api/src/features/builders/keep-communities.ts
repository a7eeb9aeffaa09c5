import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { given } from '../../kernel/records/given.ts';
import { communityCounts, presentCommunity } from './present.ts';

export function keepCommunities(app: FastifyInstance): void {
  implementInTransaction(app, routes.builders.addCommunity, async ({ db, actor, params, body, request }) => {
    found(await db.builder.findUnique({ where: params }), 'builder');
    const row = await db.community.create({
      data: { ...body, builderId: params.id },
      include: communityCounts,
    });
    await record(db, actor, request.id, {
      action: 'community added',
      recordType: 'community',
      recordId: row.id,
      after: body,
    });
    return presentCommunity(row);
  });

  implementInTransaction(
    app,
    routes.builders.changeCommunity,
    async ({ db, actor, params, body, request }) => {
      const before = found(await db.community.findUnique({ where: params }), 'community');
      const row = await db.community.update({ where: params, data: given(body), include: communityCounts });
      await record(db, actor, request.id, {
        action: 'community changed',
        recordType: 'community',
        recordId: row.id,
        before,
        after: body,
      });
      return presentCommunity(row);
    },
  );
}
