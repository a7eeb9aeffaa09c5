import type { FastifyInstance } from 'fastify';
import { routes, type RecordedHead } from '@countercheck/contracts';
import type { LogHead } from '@countercheck/prisma';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { readHead } from './head.ts';

const mostDays = 31;

const present = ({ day, sequence, hash, readAt, recipient }: LogHead): RecordedHead => ({
  day: day.toISOString().slice(0, 10),
  sequence: Number(sequence),
  ...{ hash, recipient },
  readAt: readAt.toISOString(),
});

export function showHead(app: FastifyInstance): void {
  implementInTransaction(app, routes.eventLog.head, async ({ db }) => {
    const company = await db.company.findUniqueOrThrow({
      where: { id: 1 },
      select: { logHeadEmail: true },
    });
    const recorded = await db.logHead.findMany({ orderBy: { day: 'desc' }, take: mostDays });
    return {
      head: await readHead(db),
      recipient: company.logHeadEmail,
      recorded: recorded.map(present),
    };
  });
}
