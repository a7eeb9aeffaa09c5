import type { FastifyInstance } from 'fastify';
import { smtpDelivery } from './deliver.ts';

const everyMs = 3_000;

/** Delivers the outbox while the service runs. Without a mail server the administrator reads it instead. */
export async function mailDeliveryFeature(app: FastifyInstance): Promise<void> {
  const { SMTP_URL: smtpUrl, MAIL_FROM: from } = app.config;
  if (!smtpUrl) return;
  const delivery = smtpDelivery(app.database, app.log, { smtpUrl, from });
  let running: Promise<void> | undefined;
  const run = () => {
    // A round that takes longer than the pause is not overtaken by the next one.
    running ??= delivery
      .run()
      .catch((error: unknown) => app.log.warn({ err: error }, 'the outbox could not be read'))
      .finally(() => (running = undefined));
  };
  let timer: NodeJS.Timeout | undefined;
  app.addHook('onReady', async () => {
    timer = setInterval(run, everyMs).unref();
  });
  // What is on its way is finished before the database is closed.
  app.addHook('onClose', async () => {
    clearInterval(timer);
    const last = running;
    delivery.close();
    await last;
  });
}
