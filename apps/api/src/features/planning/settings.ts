import type { FastifyInstance } from 'fastify';
import { type PlanningSettings, routes } from '@countercheck/contracts';
import type { Company } from '@countercheck/prisma';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { outOfBounds } from './routing-address.ts';

const presented = (row: Company): PlanningSettings => ({
  ...{ officeLatitude: row.officeLatitude, officeLongitude: row.officeLongitude },
  ...{ circuity: row.travelCircuity, speed: row.travelSpeed, routingUrl: row.routingUrl },
});

export function keepSettings(app: FastifyInstance): void {
  implementInTransaction(app, routes.planning.settings, async ({ db }) =>
    presented(await db.company.findUniqueOrThrow({ where: { id: 1 } })),
  );

  implementInTransaction(app, routes.planning.changeSettings, async ({ db, actor, body, request }) => {
    const { circuity, speed, ...office } = body;
    const before = presented(await db.company.findUniqueOrThrow({ where: { id: 1 } }));
    // The service itself asks that address, from inside.
    const wrong = body.routingUrl && (await outOfBounds(body.routingUrl));
    if (wrong) throw invalid('routingUrl', wrong);
    const row = await db.company.update({
      where: { id: 1 },
      data: { ...office, travelCircuity: circuity, travelSpeed: speed },
    });
    await record(db, actor, request.id, {
      action: 'planning settings changed',
      recordType: 'company',
      recordId: '1',
      before,
      after: presented(row),
    });
    return presented(row);
  });
}
