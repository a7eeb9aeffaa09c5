import { addYears } from 'date-fns';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { found } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { loadProfiles } from './load.ts';

const everHeld = () => addYears(new Date(), 1);

export function keepProfiles(app: FastifyInstance): void {
  implementInTransaction(app, routes.scheduling.profiles, ({ db }) => loadProfiles(db, everHeld()));

  implementInTransaction(
    app,
    routes.scheduling.changeProfile,
    async ({ db, actor, params, body, request }) => {
      const [before] = await loadProfiles(db, everHeld(), params.id);
      found(before, 'rater');
      const { instrumentIds, ...profile } = body;
      await db.raterProfile.upsert({
        where: { userId: params.id },
        create: { userId: params.id, ...profile },
        update: profile,
      });
      await db.instrument.updateMany({
        where: { carriedById: params.id, id: { notIn: instrumentIds } },
        data: { carriedById: null },
      });
      await db.instrument.updateMany({
        where: { id: { in: instrumentIds } },
        data: { carriedById: params.id },
      });
      await record(db, actor, request.id, {
        action: 'rater profile changed',
        recordType: 'user',
        recordId: params.id,
        before,
        after: body,
      });
      const [after] = await loadProfiles(db, everHeld(), params.id);
      return found(after, 'rater');
    },
  );
}
