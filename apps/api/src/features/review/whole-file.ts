import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { houseSummaryInclude, presentHouseSummary } from '../houses/index.ts';
import { fileParts } from './file-parts.ts';
import { differencesOf, holdingOf } from './holding.ts';
import { isOwnWork } from './policy.ts';
import { presentRelease } from './present.ts';

/** No house has more that a person would read; the whole log is under the house's events. */
const mostEvents = 500;

export function showWholeFile(app: FastifyInstance): void {
  implementInTransaction(app, routes.review.queue, async ({ db, query }) => {
    const contains = query.search ? { contains: query.search, mode: 'insensitive' as const } : null;
    const where = {
      stage: 'in_review' as const,
      ...(contains ? { OR: [{ address: contains }, { lot: contains }] } : {}),
    };
    const rows = await db.house.findMany({
      where,
      include: houseSummaryInclude,
      orderBy: [{ updatedAt: 'asc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentHouseSummary), await db.house.count({ where }), query);
  });

  implementInTransaction(app, routes.review.file, async ({ db, actor, params }) => {
    const houseId = params.id;
    const { assessed, records } = await fileParts(db, actor, houseId);
    const differences = await differencesOf(db, houseId, assessed.scorecard.verdicts);
    const holding = await holdingOf(db, records.house, assessed, differences);
    const releases = await db.release.findMany({
      where: { houseId },
      omit: { content: true },
      orderBy: { revision: 'desc' },
    });
    const events = await db.event.findMany({
      where: { houseId },
      omit: { content: true },
      orderBy: { id: 'desc' },
      take: mostEvents,
    });
    return {
      ...records,
      differences,
      releases: releases.map(presentRelease),
      events: events.map((row) => ({ ...row, id: String(row.id), at: row.at.toISOString() })),
      releasable: records.house.stage === 'in_review' && holding.length === 0,
      holding: holding.map(({ message }) => message),
      ownWork: await isOwnWork(db, actor, houseId),
    };
  });
}
