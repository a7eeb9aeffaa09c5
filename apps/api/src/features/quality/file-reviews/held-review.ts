import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { AppError, found } from '../../../kernel/problems/app-error.ts';
import { companyOptions, dayAt } from '../../assessment/index.ts';
import { summaryParts, type SummaryRow } from './present.ts';

export async function today(db: Db): Promise<string> {
  return dayAt(new Date(), (await companyOptions(db)).timezone);
}

/** A review, kept from being changed by anybody else until this transaction ends. */
export async function heldReview(db: Db, id: string): Promise<SummaryRow> {
  await db.$queryRaw`SELECT id FROM file_reviews WHERE id = ${id}::uuid FOR UPDATE`;
  return found(await db.fileReview.findUnique({ where: { id }, include: summaryParts }), 'file review');
}

export function mustBeOpen({ state }: { state: SummaryRow['state'] }): void {
  if (state !== 'open')
    throw new AppError(
      'conflict',
      state === 'withdrawn' ? 'The review was withdrawn.' : 'The review is finished; open it again first.',
    );
}

/** Only whoever has taken a review works on it. */
export function mustBeMine(review: SummaryRow, actor: UserActor): void {
  mustBeOpen(review);
  if (review.reviewerId !== actor.id)
    throw new AppError(
      'conflict',
      review.reviewer ? `${review.reviewer.name} has taken this review.` : 'Take the review first.',
    );
}
