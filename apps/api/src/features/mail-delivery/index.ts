import type { FastifyInstance } from 'fastify';
import { system } from '../../kernel/actor.ts';
import { workQueue } from '../../kernel/queue/work.ts';
import { queueJobs } from '../../kernel/queue/put.ts';
import { mailQueue } from '../../kernel/records/mail.ts';
import { lettersWaiting } from './claim.ts';
import { smtpDelivery } from './deliver.ts';

/** Delivers the outbox while the service runs. Without a mail server the administrator reads it instead. */
export async function mailDeliveryFeature(app: FastifyInstance): Promise<void> {
  const { SMTP_URL: smtpUrl, MAIL_FROM: from, publicUrl } = app.config;
  if (!smtpUrl) return;
  const { database, log } = app;
  const delivery = smtpDelivery(database, log, { smtpUrl, from, publicUrl });
  app.addHook('onReady', async () => {
    const waiting = await lettersWaiting(database);
    await database.as(system, (db) => queueJobs(db, mailQueue, waiting));
  });
  // Hooks of the end run last come, first served: the queue stops before the connection to the server is closed.
  app.addHook('onClose', async () => delivery.close());
  workQueue(app, { name: mailQueue, batch: 20, everySeconds: 1, work: (id) => delivery.send(id) });
}
