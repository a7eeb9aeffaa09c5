import type { Prisma } from '../../generated/client.ts';
import type { Random } from '../random.ts';
import type { Story } from '../stories.ts';
import type { Cast } from './people.ts';

type Db = Prisma.TransactionClient;

const corrections: Record<string, string> = {
  'duct-leakage-total': 'Mastic on the take-offs and on the return box; boots sealed to the floor.',
  'envelope-leakage': 'Foam at the rim joist and around the attic hatch; weatherstrip on the back door.',
  'bedroom-pressure-relief': 'Transfer grille cut in above the door.',
  'supply-static': 'Damper opened and a crushed flex run replaced.',
  'return-static': 'Return grille changed for a larger one.',
};

/** Failed items with their history, reinspections asked for, and files the quality manager gave back. */
export async function writeFindings(db: Db, stories: Story[], cast: Cast, random: Random): Promise<void> {
  for (const story of stories) {
    const first = story.visits[0];
    if (!first?.submittedAt) continue;
    const rater = cast.raters[first.rater]!;
    const owner = cast.builders[story.builder]!;
    const second = story.visits[1];
    for (const { verdict, state, correctedAt } of story.failed) {
      const id = random.uuid();
      await db.failedItem.create({
        data: {
          id,
          houseId: story.house.id,
          item: verdict.item,
          title: verdict.title,
          subjectId: verdict.subjectId,
          subjectLabel: verdict.subjectLabel,
          trade: verdict.trade,
          state,
          reason: verdict.reason,
          needed: verdict.headline?.needed ?? null,
          correction: verdict.correction,
          cautions: verdict.cautions,
          openedAt: first.submittedAt,
          openedById: rater.id,
          closedAt: state === 'closed' ? (second?.submittedAt ?? null) : null,
        },
      });
      const entry = (
        kind: 'opened' | 'corrected' | 'reinspection_asked' | 'closed',
        text: string,
        byName: string,
        byUserId: string,
        at: Date,
        visitId: string | null = null,
      ) => ({ failedItemId: id, kind, text, byName, byUserId, at, visitId });
      await db.failedItemEntry.createMany({
        data: [
          entry('opened', verdict.reason, rater.name, rater.id, first.submittedAt, first.id),
          ...(correctedAt
            ? [
                entry(
                  'corrected',
                  corrections[verdict.item] ?? 'Put right by the trade and checked on site.',
                  owner.userName,
                  owner.userId,
                  correctedAt,
                ),
              ]
            : []),
          ...(story.askedAt
            ? [
                entry(
                  'reinspection_asked',
                  'Ready for reinspection.',
                  owner.userName,
                  owner.userId,
                  story.askedAt,
                ),
              ]
            : []),
          ...(state === 'closed' && second?.submittedAt
            ? [
                entry(
                  'closed',
                  'Passed at the reinspection.',
                  cast.raters[second.rater]!.name,
                  cast.raters[second.rater]!.id,
                  second.submittedAt,
                  second.id,
                ),
              ]
            : []),
        ],
      });
    }
    if (story.askedAt) {
      await db.reinspectionRequest.create({
        data: {
          houseId: story.house.id,
          state: second ? 'done' : 'asked',
          note: 'All items corrected; the site manager has the key.',
          askedById: owner.userId,
          askedByName: owner.userName,
          askedAt: story.askedAt,
          visitId: second?.id ?? null,
        },
      });
    }
    if (story.returnedAt) {
      await db.review.create({
        data: {
          houseId: story.house.id,
          revision: 1,
          reviewerId: cast.quality.id,
          reviewer: cast.quality.name,
          outcome: 'returned',
          at: story.returnedAt,
          note: 'Please answer before the file can go out.',
          findings: {
            create: [
              {
                item: 'envelope-leakage',
                subjectId: 'house',
                severity: 'major',
                text: 'The photo of the gauge at 50 Pa is missing. Was the baseline read again at the end?',
              },
            ],
          },
        },
      });
    }
  }
}
