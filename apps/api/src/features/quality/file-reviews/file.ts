import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { fileParts } from '../../review/index.ts';
import { subjectsOf } from '@countercheck/assessment';
import { testDefinitions } from '@countercheck/measurement';
import type { Checklist } from '@countercheck/quality';

export type ReviewedFile = Awaited<ReturnType<typeof fileParts>>;

export interface Step {
  step: string;
  kind: 'reading' | 'check';
  readingId: string | null;
  title: string;
  subject: string | null;
}

export const readFile = (db: Db, actor: UserActor, houseId: string): Promise<ReviewedFile> =>
  fileParts(db, actor, houseId);

/** What is looked at, in this order: each reading that stands, as it was taken, and each line for the whole file. */
export function stepsOf({ records, assessed }: ReviewedFile, list: Checklist): Step[] {
  const labels = new Map(subjectsOf(assessed.file).map(({ id, label }) => [id, label]));
  const readings = records.readings
    .filter(({ supersededById }) => supersededById === null)
    .map(({ id, test, subjectId }) => ({
      step: `reading:${id}`,
      kind: 'reading' as const,
      readingId: id,
      title: testDefinitions[test].title,
      subject: labels.get(subjectId) ?? null,
    }));
  const checks = list.file.map(({ key, title }) => ({
    ...{ step: `check:${key}`, kind: 'check' as const, readingId: null, title, subject: null },
  }));
  return [...readings, ...checks];
}
