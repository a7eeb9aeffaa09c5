import { isDeepStrictEqual } from 'node:util';
import type { readingBody } from '@countercheck/contracts';
import { testDefinitions } from '@countercheck/measurement';
import type { Reading } from '@countercheck/prisma';
import type * as z from 'zod';
import type { Db } from '../../kernel/database/database.ts';
import { AppError, invalid } from '../../kernel/problems/app-error.ts';
import type { VisitRow } from '../visits/index.ts';

type Body = z.output<typeof readingBody>;

const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

function sameContent(row: Reading, visit: VisitRow, body: Body): boolean {
  const { visitId, takenAt, test, subjectId, raw, entered, conditions, instrumentId, supersedesId } = row;
  const said = { test, subjectId, raw, entered, conditions, instrumentId, supersedesId };
  const sent = {
    test: body.test,
    subjectId: body.subjectId,
    raw: body.raw,
    entered: body.entered,
    conditions: body.conditions,
    instrumentId: body.instrumentId,
    supersedesId: body.supersedesId,
  };
  return (
    visitId === visit.id &&
    takenAt.getTime() === Date.parse(body.takenAt) &&
    (body.supersedesId === null || row.supersedeReason === body.supersedeReason) &&
    isDeepStrictEqual(plain(said), plain(sent))
  );
}

/** True when this very reading is kept already: a phone that got no answer sends again. */
export async function keptAlready(db: Db, visit: VisitRow, body: Body): Promise<boolean> {
  const earlier = await db.reading.findUnique({ where: { id: body.id } });
  if (earlier && !sameContent(earlier, visit, body)) throw new AppError('same-key-other-body');
  return earlier !== null;
}

/** A reading is never changed: it takes its place beside the others, or replaces the newest one with a reason. */
export async function checkPlace(db: Db, visit: VisitRow, body: Body): Promise<void> {
  const { test, subjectId, supersedesId } = body;
  if (supersedesId === null) {
    const standing = await db.reading.count({
      where: { visitId: visit.id, test, subjectId, supersededBy: null },
    });
    if (standing > 0)
      throw new AppError(
        'conflict',
        `${testDefinitions[test].title} was read here on this visit. Correct that reading, with a reason, instead.`,
      );
    return;
  }
  if (!body.supersedeReason) throw new AppError('reason-required');
  const replaced = await db.reading.findUnique({
    where: { id: supersedesId },
    include: { supersededBy: { select: { id: true } }, visit: { select: { kind: true } } },
  });
  if (
    !replaced ||
    replaced.houseId !== visit.houseId ||
    // What was measured first is none of a second measurement's, and the other way round.
    ((visit.kind === 'quality' || replaced.visit.kind === 'quality') && replaced.visitId !== visit.id) ||
    replaced.test !== test ||
    replaced.subjectId !== subjectId
  )
    throw invalid('supersedesId', 'There is no such reading of this test to correct.');
  if (replaced.supersededBy) throw new AppError('reading-superseded');
}
