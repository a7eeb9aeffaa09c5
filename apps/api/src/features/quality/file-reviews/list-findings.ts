import type { ListedFinding } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { pageAnswer, pageWindow } from '../../../kernel/records/page.ts';
import { presentQualityHouse, qualityHouse } from '../../retests/index.ts';
import { checklistFor } from './checklists.ts';
import { today } from './held-review.ts';
import { findingParts, presentFinding } from './present.ts';

const named = { select: { id: true, name: true } };
const listed = {
  ...findingParts,
  fileReview: { include: { house: qualityHouse, rater: named } },
} satisfies Prisma.FileReviewFindingInclude;

interface Query {
  page: number;
  pageSize: number;
  state?: ListedFinding['state'] | undefined;
  raterId?: string | undefined;
  overdue?: boolean | undefined;
}

/** What a rater may see of findings: those on his own files, or that he has to answer, of finished reviews. */
export const ownFindings = (actor: UserActor): Prisma.FileReviewFindingWhereInput => ({
  OR: [{ responsibleId: actor.id }, { fileReview: { raterId: actor.id } }],
});
export const told: Prisma.FileReviewFindingWhereInput = {
  fileReview: { state: { in: ['done', 'appealed'] } },
};

export async function listFindings(db: Db, actor: UserActor, query: Query) {
  const day = await today(db);
  const where: Prisma.FileReviewFindingWhereInput = {
    AND: [
      told,
      actor.role === 'rater' ? ownFindings(actor) : {},
      query.raterId ? { fileReview: { raterId: query.raterId } } : {},
      query.state ? { state: query.state } : {},
      query.overdue ? { state: 'open', dueOn: { lt: new Date(day) } } : {},
    ],
  };
  const rows = await db.fileReviewFinding.findMany({
    where,
    include: listed,
    orderBy: [{ state: 'asc' }, { dueOn: 'asc' }, { id: 'asc' }],
    ...pageWindow(query),
  });
  const items = await Promise.all(
    rows.map(async (row) => ({
      ...presentFinding(row, await checklistFor(row.fileReview, day), day),
      house: presentQualityHouse(row.fileReview.house),
      rater: row.fileReview.rater,
    })),
  );
  return pageAnswer(items, await db.fileReviewFinding.count({ where }), query);
}
