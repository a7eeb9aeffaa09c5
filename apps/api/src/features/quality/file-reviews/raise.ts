import { addDays } from 'date-fns';
import { checkOf } from '@countercheck/quality';
import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { record } from '../../../kernel/records/events.ts';
import { automaticFindings } from './automatic.ts';
import { checklistFor } from './checklists.ts';
import { readFile, type ReviewedFile } from './file.ts';
import { today } from './held-review.ts';
import type { SummaryRow } from './present.ts';

/**
 * Turns what the computation finds now into findings of the review, each once: one that was struck on appeal is not
 * raised again.
 */
export async function raiseAutomatic(
  db: Db,
  actor: UserActor,
  requestId: string,
  review: SummaryRow,
): Promise<ReviewedFile> {
  const file = await readFile(db, actor, review.houseId);
  const day = await today(db);
  const list = await checklistFor(review, day);
  const known = await db.fileReviewFinding.findMany({
    where: { fileReviewId: review.id, automatic: true },
    select: { step: true, check: true, text: true },
  });
  for (const each of await automaticFindings(db, review, file)) {
    if (
      known.some(({ step, check, text }) => step === each.step && check === each.check && text === each.text)
    )
      continue;
    const { severity, days } = checkOf(list, each.check) ?? { severity: 'major' as const, days: 7 };
    const row = await db.fileReviewFinding.create({
      data: {
        ...{ ...each, fileReviewId: review.id, automatic: true, severity },
        responsibleId: review.raterId,
        dueOn: addDays(new Date(day), days),
        raisedById: actor.id,
        raisedBy: 'Computed again',
      },
    });
    await record(db, actor, requestId, {
      action: 'file finding raised',
      recordType: 'file finding',
      recordId: row.id,
      houseId: review.houseId,
      after: { ...each, severity, automatic: true },
    });
  }
  return file;
}
