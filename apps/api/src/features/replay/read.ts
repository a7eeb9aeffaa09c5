import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import {
  presentReplay,
  presentReplayHouse,
  presentSummary,
  replayHouseParts,
  replayParts,
} from './present.ts';

const differences = { more: 1, fewer: -1, same: 0 } as const;

export function readReplays(app: FastifyInstance): void {
  implementInTransaction(app, routes.replay.list, async ({ db, query }) => {
    const rows = await db.replay.findMany({
      include: replayParts,
      orderBy: [{ run: { askedAt: 'desc' } }, { id: 'desc' }],
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentSummary), await db.replay.count(), query);
  });

  implementInTransaction(app, routes.replay.show, async ({ db, params }) => {
    const row = found(await db.replay.findUnique({ where: params, include: replayParts }), 'replay');
    return presentReplay(db, row);
  });

  implementInTransaction(app, routes.replay.houses, async ({ db, params, query }) => {
    const { run } = found(await db.replay.findUnique({ where: params, include: { run: true } }), 'replay');
    // What a run has found so far is no result.
    if (run.state !== 'done') return pageAnswer([], 0, query);
    const where: Prisma.ReplayHouseWhereInput = {
      replayId: params.id,
      ...(query.reinspection ? { reinspection: differences[query.reinspection] } : {}),
      ...(query.builderId ? { house: { builderId: query.builderId } } : {}),
      ...(query.item ? { changes: { array_contains: [{ item: query.item }] } } : {}),
    };
    const rows = await db.replayHouse.findMany({
      where,
      include: replayHouseParts,
      orderBy: [{ reinspection: 'desc' }, { houseId: 'asc' }],
      ...pageWindow(query),
    });
    const ids = [...new Set(rows.flatMap(({ raterId }) => raterId ?? []))];
    const raters = await db.user.findMany({ where: { id: { in: ids } }, select: { id: true, name: true } });
    const names = new Map(raters.map(({ id, name }) => [id, name]));
    return pageAnswer(
      rows.map((row) => presentReplayHouse(row, names)),
      await db.replayHouse.count({ where }),
      query,
    );
  });
}
