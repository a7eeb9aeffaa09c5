import { addDays } from 'date-fns';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, found } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { presentBoardVisit } from './board.ts';
import { loadSurroundings } from './surroundings.ts';

export function assignInstruments(app: FastifyInstance): void {
  implementInTransaction(
    app,
    routes.scheduling.setInstruments,
    async ({ db, actor, params, body, request }) => {
      await db.$queryRaw`SELECT id FROM visits WHERE id = ${params.id}::uuid FOR UPDATE`;
      const visit = found(
        await db.visit.findUnique({ where: params, include: { instruments: true } }),
        'visit',
      );
      if (visit.state !== 'booked') throw new AppError('visit-closed', 'The visit has begun or is over.');
      const ids = [...new Set(body.instrumentIds)];
      await db.visitInstrument.deleteMany({ where: { visitId: visit.id } });
      await db.visitInstrument.createMany({
        data: ids.map((instrumentId) => ({ visitId: visit.id, instrumentId })),
      });
      await record(db, actor, request.id, {
        action: 'instruments assigned',
        recordType: 'visit',
        recordId: visit.id,
        houseId: visit.houseId,
        before: { instrumentIds: visit.instruments.map(({ instrumentId }) => instrumentId) },
        after: { instrumentIds: ids },
      });
      const { rows, around } = await loadSurroundings(db, visit.startsAt, addDays(visit.startsAt, 1));
      return presentBoardVisit(
        found(
          rows.find(({ id }) => id === visit.id),
          'visit',
        ),
        around,
      );
    },
  );
}
