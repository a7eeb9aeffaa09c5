import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { companyOptions } from '../assessment/index.ts';
import { instrumentParts, presentInstrument } from './present.ts';

export function readInstruments(app: FastifyInstance): void {
  implementInTransaction(app, routes.instruments.list, async ({ db, query }) => {
    const part = query.search ? { contains: query.search, mode: 'insensitive' as const } : undefined;
    const where: Prisma.InstrumentWhereInput = {
      ...(query.kind ? { kind: query.kind } : {}),
      ...(part ? { OR: [{ label: part }, { serial: part }] } : {}),
    };
    const rows = await db.instrument.findMany({
      where,
      include: instrumentParts,
      orderBy: [{ active: 'desc' }, { kind: 'asc' }, { label: 'asc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    const { timezone } = await companyOptions(db);
    return pageAnswer(
      rows.map((row) => presentInstrument(row, timezone)),
      await db.instrument.count({ where }),
      query,
    );
  });
  implementInTransaction(app, routes.instruments.show, async ({ db, params }) => {
    const row = await db.instrument.findUnique({ where: { id: params.id }, include: instrumentParts });
    return presentInstrument(found(row, 'instrument'), (await companyOptions(db)).timezone);
  });
}
