import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { record } from '../../../kernel/records/events.ts';
import { columnOf, sharesInForce } from '../../population/index.ts';

export function changeShares(app: FastifyInstance): void {
  implementInTransaction(app, routes.sampling.changeShare, async ({ db, actor, body, request }) => {
    const { kind, share, minimum, source } = body;
    const before = (await sharesInForce(db))[kind];
    const data = { share, minimum, source, changedBy: actor.name };
    const purpose = columnOf[kind];
    await db.obligationShare.upsert({
      where: { purpose },
      create: { purpose, ...data },
      update: data,
    });
    await record(db, actor, request.id, {
      action: 'share changed',
      recordType: 'obligation share',
      recordId: kind,
      before: { share: before.share, minimum: before.minimum, source: before.source },
      after: { share, minimum, source },
    });
    return (await sharesInForce(db))[kind];
  });
}
