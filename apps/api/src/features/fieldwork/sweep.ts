import type { FastifyInstance } from 'fastify';
import { system } from '../../kernel/actor.ts';
import type { Database } from '../../kernel/database/database.ts';
import { sweepKeys } from '../../kernel/http/once.ts';

const uploadDays = 14;

/** Photos that were announced and given up, and the traces of those that came: nobody asks for them again. */
async function sweepUploads(database: Database): Promise<void> {
  await database.as(
    system,
    (db) => db.$executeRaw`
      DELETE FROM photo_uploads WHERE created_at < now() - ${uploadDays} * interval '1 day'`,
  );
}

/** What phones have left behind is thrown away by age, once a day and not at the moment of starting. */
export function sweepDaily(app: FastifyInstance): void {
  let running: Promise<void> = Promise.resolve();
  const sweep = async () => {
    try {
      await sweepKeys(app.database, system);
      await sweepUploads(app.database);
    } catch (error) {
      app.log.warn({ err: error }, 'what phones left behind was not swept');
    }
  };
  const timer = setInterval(() => {
    running = sweep();
  }, 24 * 3_600_000).unref();
  app.addHook('onClose', async () => {
    clearInterval(timer);
    await running;
  });
}
