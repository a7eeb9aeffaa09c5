import type { FastifyInstance } from 'fastify';
import { routes, type FileReview } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, found } from '../../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../../kernel/records/page.ts';
import { isOwnWork } from '../../review/index.ts';
import { orderFileReviews } from '../../second-looks/index.ts';
import { automaticFindings } from './automatic.ts';
import { checklistFor } from './checklists.ts';
import { readFile, stepsOf } from './file.ts';
import { today } from './held-review.ts';
import { findingParts, presentFinding, presentSummary, summaryParts } from './present.ts';
import { listFindings } from './list-findings.ts';

/** A review with everything that its page shows, worked out from the file as it is now. */
export async function showReview(db: Db, actor: UserActor, id: string): Promise<FileReview> {
  const row = found(
    await db.fileReview.findUnique({
      where: { id },
      include: {
        ...summaryParts,
        marks: true,
        findings: { include: findingParts, orderBy: [{ raisedAt: 'asc' }, { id: 'asc' }] },
      },
    }),
    'file review',
  );
  const day = await today(db);
  const list = await checklistFor(row, day);
  const file = await readFile(db, actor, row.houseId);
  const marks = new Map(row.marks.map((mark) => [mark.step, mark]));
  return {
    ...presentSummary(row, day),
    ownWork: await isOwnWork(db, actor, row.houseId),
    mine: row.reviewerId === actor.id,
    checklist: {
      ...{ version: list.version, title: list.title, source: list.source.citation },
      ...{ reading: list.reading, file: list.file, automatic: list.automatic },
    },
    steps: stepsOf(file, list).map((step) => ({
      ...step,
      mark: marks.get(step.step)?.mark ?? null,
      markedAt: marks.get(step.step)?.markedAt.toISOString() ?? null,
    })),
    findings: row.findings.map((finding) => presentFinding(finding, list, day)),
    automatic: row.state === 'open' ? await automaticFindings(db, row, file) : [],
  };
}

function wherefrom(which: string, actor: UserActor, day: string): Prisma.FileReviewWhereInput {
  switch (which) {
    case 'mine':
      return { state: 'open', reviewerId: actor.id };
    case 'unassigned':
      return { state: 'open', reviewerId: null };
    case 'overdue':
      return { state: 'open', dueOn: { lt: new Date(day) } };
    case 'appealed':
      return { state: 'appealed' };
    case 'done':
      return { state: { in: ['done', 'appealed'] } };
    default:
      return { state: 'open' };
  }
}

export function readFileReviews(app: FastifyInstance): void {
  implementInTransaction(app, routes.fileReviews.list, async ({ db, actor, query }) => {
    const day = await today(db);
    const contains = { contains: query.search ?? '', mode: 'insensitive' as const };
    const where: Prisma.FileReviewWhereInput = {
      ...wherefrom(query.which, actor, day),
      ...(query.raterId ? { raterId: query.raterId } : {}),
      ...(query.search ? { house: { OR: [{ address: contains }, { lot: contains }] } } : {}),
    };
    const rows = await db.fileReview.findMany({
      where,
      include: summaryParts,
      orderBy:
        query.which === 'done' ? [{ doneAt: 'desc' }, { id: 'asc' }] : [{ dueOn: 'asc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    return pageAnswer(
      rows.map((row) => presentSummary(row, day)),
      await db.fileReview.count({ where }),
      query,
    );
  });

  implementInTransaction(app, routes.fileReviews.show, ({ db, actor, params }) =>
    showReview(db, actor, params.id),
  );

  implementInTransaction(app, routes.fileReviews.order, async ({ db, actor, body, request }) => {
    const [ordered] = await orderFileReviews(db, actor, request.id, [{ ...body, source: 'manual' }]);
    if (!ordered!.created) throw new AppError('conflict', 'This file is under review already.');
    const row = await db.fileReview.findUniqueOrThrow({ where: { id: ordered!.id }, include: summaryParts });
    return presentSummary(row, await today(db));
  });

  implementInTransaction(app, routes.fileReviews.findings, ({ db, actor, query }) =>
    listFindings(db, actor, query),
  );
}
