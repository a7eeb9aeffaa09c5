import { isDeepStrictEqual } from 'node:util';
import type { Reading } from '@countercheck/prisma';
import { testDefinitions, type TestKey } from '@countercheck/measurement';
import type { Db } from '../../kernel/database/database.ts';
import type { FieldProblem } from '../../kernel/problems/app-error.ts';

/** What the log tells of a reading; records from before something was told leave it out. */
const told = [
  'test',
  'subjectId',
  'raw',
  'entered',
  'instrumentId',
  'calibrationId',
  'figuresRevision',
] as const;

function sameAs(row: Reading, after: Record<string, unknown>): boolean {
  const takenAt = after['takenAt'];
  if (typeof takenAt === 'string' && Date.parse(takenAt) !== row.takenAt.getTime()) return false;
  return told.every((key) => after[key] === undefined || isDeepStrictEqual(row[key], after[key]));
}

/**
 * Readings of a house that are not what the event log says was recorded. The log is chained and the table is not: who
 * has all rights over the database could change a reading in place, and its verdict with it. In a house whose readings
 * the log tells of, one that it does not tell of is one too.
 */
export async function readingsAgainstLog(db: Db, houseId: string): Promise<FieldProblem[]> {
  const rows = await db.reading.findMany({
    where: { houseId },
    orderBy: [{ takenAt: 'asc' }, { id: 'asc' }],
  });
  const events = await db.event.findMany({
    where: {
      ...{ recordType: 'reading', recordId: { in: rows.map(({ id }) => id) } },
      action: { in: ['reading recorded', 'reading superseded'] },
    },
    select: { recordId: true, after: true },
  });
  const logged = new Map(events.map(({ recordId, after }) => [recordId, after as Record<string, unknown>]));
  return rows.flatMap((row) => {
    const after = logged.get(row.id);
    if (after ? sameAs(row, after) : logged.size === 0) return [];
    const { title } = testDefinitions[row.test as TestKey];
    const what = after ? 'is not what the event log says was recorded' : 'stands nowhere in the event log';
    return [
      {
        path: `readings.${row.id}`,
        message: `A reading of ${title.toLowerCase()} ${what}. Tell the administrator.`,
      },
    ];
  });
}
