import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';

/**
 * Whether this person is about to measure the house a second time. Until that is submitted, nothing that tells what
 * was measured first, what it came to or what the installer reported is given to him.
 */
export async function measuresAgain(db: Db, actor: UserActor, houseId: string): Promise<boolean> {
  if (actor.role !== 'rater') return false;
  return (await db.visit.count({ where: { ...openRetest(actor), houseId } })) > 0;
}

/** The visits of this rater that are second measurements and not submitted. */
export const openRetest = (actor: UserActor) => ({
  raterId: actor.id,
  kind: 'quality' as const,
  state: { in: ['booked' as const, 'in_progress' as const] },
});

/** Deeds that tell nothing of what was found. */
export const tellsNothing: readonly string[] = [
  'house registered',
  'houses imported',
  'link sent',
  'link withdrawn',
  'visit booked',
  'visit moved',
  'visit cancelled',
];
