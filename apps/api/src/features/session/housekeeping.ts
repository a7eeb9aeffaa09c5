import type { FastifyInstance } from 'fastify';
import type { SessionKeeper } from './lucia.ts';
import { sweepAttempts } from './throttle.ts';

/** Sessions and counts that are over are no longer looked at; once an hour they are thrown away. */
export function sweepRegularly(app: FastifyInstance, keeper: SessionKeeper): void {
  let running: Promise<void> = Promise.resolve();
  const sweep = async () => {
    try {
      await keeper.sweep();
      await sweepAttempts(app.database);
    } catch (error) {
      app.log.warn({ err: error }, 'old sessions were not swept');
    }
  };
  const timer = setInterval(() => {
    running = sweep();
  }, 3_600_000).unref();
  app.addHook('onClose', async () => {
    clearInterval(timer);
    await running;
  });
}
