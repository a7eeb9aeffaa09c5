import type { FastifyInstance } from 'fastify';
import { subjectsOf } from '@countercheck/assessment';
import { routes, type Retest, type RetestSummary } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { companyOptions, dayAt, isoDate, loadHouseFile } from '../assessment/index.ts';
import { orderRetests } from './order.ts';
import { presentQualityHouse, qualityHouse } from './present-house.ts';
import { scopeOf } from './scope.ts';

const named = { select: { id: true, name: true } };
const summaryParts = {
  house: qualityHouse,
  rater: named,
  visit: { select: { id: true, state: true, startsAt: true, rater: named } },
} satisfies Prisma.RetestInclude;
type Row = Prisma.RetestGetPayload<{ include: typeof summaryParts }>;

const today = async (db: Db) => dayAt(new Date(), (await companyOptions(db)).timezone);
const open: Prisma.RetestWhereInput = { state: { in: ['ordered', 'booked'] } };

function presentSummary(row: Row, day: string): RetestSummary {
  const { id, rater, source, reason, state, outcome, orderedBy, visit } = row;
  const dueOn = isoDate(row.dueOn);
  return {
    ...{ id, rater, source, reason, state, outcome, orderedBy, dueOn },
    house: presentQualityHouse(row.house),
    overdue: (state === 'ordered' || state === 'booked') && dueOn < day,
    visit: visit && { ...visit, startsAt: visit.startsAt.toISOString() },
    orderedAt: row.orderedAt.toISOString(),
    doneAt: row.doneAt?.toISOString() ?? null,
  };
}

async function comparisonsOf(db: Db, retestId: string): Promise<Retest['comparisons']> {
  const rows = await db.retestComparison.findMany({
    where: { retestId },
    orderBy: [{ test: 'asc' }, { id: 'asc' }],
  });
  const readings = await db.reading.findMany({
    where: { id: { in: rows.flatMap((row) => [row.firstReadingId, row.secondReadingId]) } },
    select: {
      id: true,
      takenAt: true,
      takenBy: { select: { name: true } },
      instrument: { select: { label: true } },
    },
  });
  const known = new Map(readings.map((reading) => [reading.id, reading]));
  const side = (readingId: string, value: number, expanded: number | null) => {
    const reading = known.get(readingId)!;
    return {
      ...{ readingId, value, expanded, takenBy: reading.takenBy.name },
      takenAt: reading.takenAt.toISOString(),
      instrument: reading.instrument?.label ?? null,
    };
  };
  return rows.map((row) => ({
    ...{ id: row.id, test: row.test as Retest['comparisons'][number]['test'], subjectId: row.subjectId },
    ...{ subjectLabel: row.subjectLabel, value: row.value, label: row.label },
    ...{ quantity: row.quantity, unit: row.unit },
    first: side(row.firstReadingId, row.first, row.firstExpanded),
    second: side(row.secondReadingId, row.second, row.secondExpanded),
    difference: row.second - row.first,
    ...{ tolerance: row.tolerance, toleranceVersion: row.toleranceVersion },
    ...{ allowed: row.allowed, agrees: row.agrees },
  }));
}

async function showRetest(db: Db, id: string): Promise<Retest> {
  const row = found(await db.retest.findUnique({ where: { id }, include: summaryParts }), 're-test');
  const comparisons = await comparisonsOf(db, id);
  const file = await loadHouseFile(db, row.houseId);
  const labels = new Map(subjectsOf(file).map((subject) => [subject.id, subject.label]));
  const scope = await scopeOf(db, row);
  const done = new Set(comparisons.map(({ test, subjectId }) => `${test}/${subjectId}`));
  const missed =
    row.state === 'done' ? scope.filter((each) => !done.has(`${each.test}/${each.subjectId}`)) : [];
  return {
    ...presentSummary(row, await today(db)),
    scope: row.scope === null ? null : scope,
    note: row.note,
    comparisons,
    notRepeated: missed.map(({ test, subjectId }) => ({
      test,
      subjectLabel: labels.get(subjectId) ?? subjectId,
    })),
  };
}

const shown = {
  open,
  overdue: open,
  done: { state: 'done' },
  differs: { state: 'done', outcome: 'differs' },
  withdrawn: { state: 'withdrawn' },
} satisfies Record<string, Prisma.RetestWhereInput>;

export function readRetests(app: FastifyInstance): void {
  implementInTransaction(app, routes.retests.list, async ({ db, query }) => {
    const day = await today(db);
    const contains = { contains: query.search ?? '', mode: 'insensitive' as const };
    const where: Prisma.RetestWhereInput = {
      ...shown[query.which],
      ...(query.which === 'overdue' ? { dueOn: { lt: new Date(day) } } : {}),
      ...(query.raterId ? { raterId: query.raterId } : {}),
      ...(query.search ? { house: { OR: [{ address: contains }, { lot: contains }] } } : {}),
    };
    const finished = query.which === 'done' || query.which === 'differs';
    const rows = await db.retest.findMany({
      where,
      include: summaryParts,
      orderBy: finished ? [{ doneAt: 'desc' }, { id: 'asc' }] : [{ dueOn: 'asc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    return pageAnswer(
      rows.map((row) => presentSummary(row, day)),
      await db.retest.count({ where }),
      query,
    );
  });

  implementInTransaction(app, routes.retests.show, ({ db, params }) => showRetest(db, params.id));

  implementInTransaction(app, routes.retests.order, async ({ db, actor, body, request }) => {
    const [ordered] = await orderRetests(db, actor, request.id, [{ ...body, source: 'manual' }]);
    if (!ordered!.created) throw new AppError('conflict', 'A re-test is on order for this house already.');
    const row = await db.retest.findUniqueOrThrow({ where: { id: ordered!.id }, include: summaryParts });
    return presentSummary(row, await today(db));
  });

  implementInTransaction(app, routes.retests.withdraw, async ({ db, actor, params, body, request }) => {
    await db.$queryRaw`SELECT id FROM retests WHERE id = ${params.id}::uuid FOR UPDATE`;
    const before = found(await db.retest.findUnique({ where: params }), 're-test');
    if (before.state !== 'ordered')
      throw new AppError(
        'conflict',
        'It is booked, done or withdrawn; cancel its visit first if it is booked.',
      );
    if (before.source === 'draw')
      throw new AppError('conflict', 'It was drawn; a draw that leaves out what it drew proves nothing.');
    const row = await db.retest.update({
      where: params,
      data: { state: 'withdrawn', note: body.reason },
      include: summaryParts,
    });
    await db.visitRequest.updateMany({
      where: { retestId: row.id, state: 'open' },
      data: { state: 'withdrawn' },
    });
    await record(db, actor, request.id, {
      action: 're-test withdrawn',
      recordType: 're-test',
      recordId: row.id,
      houseId: row.houseId,
      before: { state: before.state },
      after: { state: row.state },
      reason: body.reason,
    });
    return presentSummary(row, await today(db));
  });
}
