import type { FastifyInstance } from 'fastify';
import { system } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { queueMail } from '../../kernel/records/mail.ts';
import { dayAt } from '../assessment/index.ts';
import { readHead } from './head.ts';

const everyMs = 3_600_000;
const firstMs = 30_000;

const letter = (company: string, day: string, head: object) => `\
The newest record of ${company}'s event log on ${day}:

${JSON.stringify(head, null, 2)}

Please keep this message. With it anybody can tell later whether the log still has everything that it had today:
what was changed, taken out or cut off since then no longer leads to this record. It does not show whether what was
logged was true, nor what was done before the head you got before this one. To check: save the lines in braces as
head.json, then npm run verify-log -- --head head.json
`;

async function record(db: Db): Promise<boolean> {
  const company = await db.company.findUnique({
    where: { id: 1 },
    select: { name: true, timezone: true, logHeadEmail: true },
  });
  const head = await readHead(db);
  if (!company || head.sequence === 0) return false;
  const day = dayAt(new Date(head.at), company.timezone);
  const { count } = await db.logHead.createMany({
    data: {
      day: new Date(day),
      ...{ sequence: head.sequence, hash: head.hash, readAt: new Date(head.at) },
      recipient: company.logHeadEmail,
    },
    // Another process was first, today.
    skipDuplicates: true,
  });
  if (count > 0 && company.logHeadEmail)
    await queueMail(db, {
      recipient: company.logHeadEmail,
      subject: `Event log of ${company.name}: record ${head.sequence} on ${day}`,
      body: letter(company.name, day, head),
      about: 'event-log',
    });
  return count > 0;
}

/** Notes the head of the log once a day and sends it to whoever keeps it elsewhere; says whether today was still due. */
export const recordHead = (database: Database): Promise<boolean> => database.as(system, record);

export function recordDaily(app: FastifyInstance): void {
  let running: Promise<unknown> = Promise.resolve();
  const run = () => {
    running = recordHead(app.database).catch((error: unknown) =>
      app.log.warn({ err: error }, 'the head of the event log was not recorded'),
    );
  };
  const timers = [setTimeout(run, firstMs).unref(), setInterval(run, everyMs).unref()];
  app.addHook('onClose', async () => {
    timers.forEach(clearTimeout);
    await running;
  });
}
