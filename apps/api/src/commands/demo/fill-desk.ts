import { addDays } from 'date-fns';
import { checkOf } from '@countercheck/quality';
import type { Demo, YearStory } from '@countercheck/prisma/demo';
import { companyOptions, dayAt } from '../../features/assessment/index.ts';
import { compareTwice } from '../../features/retests/compare.ts';
import { scopeOf } from '../../features/retests/scope.ts';
import { checklistOn } from '../../features/quality/file-reviews/checklists.ts';
import { system } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';

type Cast = Demo['cast'];

/** Compares what a colleague measured with what was measured first, as it is done when such a visit is submitted. */
async function compare(db: Db, cast: Cast, story: YearStory, timezone: string): Promise<void> {
  const { retest, house, visits } = story;
  if (!retest) return;
  const by = { orderedById: cast.quality.id, orderedBy: cast.quality.name };
  const doneAt = retest.submittedAt!;
  const row = await db.retest.create({
    data: {
      ...{ houseId: house.id, raterId: cast.raters[visits[0]!.rater]!.id, source: 'manual', ...by },
      ...{ reason: 'Chosen by hand', orderedAt: addDays(doneAt, -9), dueOn: addDays(doneAt, 10) },
      ...{ state: 'done', visitId: retest.id, doneAt },
    },
  });
  const scope = await scopeOf(db, row);
  const compared = await compareTwice(db, row, retest.id, scope, dayAt(doneAt, timezone));
  await db.retestComparison.createMany({ data: compared });
  const outcome = compared.every(({ agrees }) => agrees) ? ('agrees' as const) : ('differs' as const);
  await db.retest.update({ where: { id: row.id }, data: { outcome } });
  await record(db, system, null, {
    action: 're-test compared',
    recordType: 're-test',
    recordId: row.id,
    houseId: house.id,
    after: { state: 'done', outcome, compared: compared.length },
  });
}

interface Order {
  source: 'manual' | 'draw';
  drawId?: string;
  reason: string;
  orderedAt: Date;
  dueOn: Date;
  doneAt: Date;
}
const byHand = ({ releasedAt }: YearStory): Order => ({
  ...{ source: 'manual', reason: 'Chosen by hand', orderedAt: addDays(releasedAt, 1) },
  ...{ dueOn: addDays(releasedAt, 14), doneAt: addDays(releasedAt, 6) },
});

/** A review of the past: without a finding, or with one that was answered. */
export async function review(
  db: Db,
  cast: Cast,
  story: YearStory,
  found: boolean,
  order: Order = byHand(story),
): Promise<void> {
  const { house, visits } = story;
  const rater = cast.raters[visits[0]!.rater]!;
  const { quality } = cast;
  const { doneAt } = order;
  const day = doneAt.toISOString().slice(0, 10);
  const list = await checklistOn(day);
  const row = await db.fileReview.create({
    data: {
      ...{ houseId: house.id, revision: 1, raterId: rater.id, ...order },
      ...{ orderedById: quality.id, orderedBy: quality.name, reviewerId: quality.id, startedAt: doneAt },
      ...{ checklistKey: list.key, checklistVersion: list.version },
      ...{ state: 'done', outcome: found ? 'findings' : 'clean' },
    },
  });
  const replaced = new Set(visits.flatMap(({ readings }) => readings.map((each) => each.supersedesId)));
  const standing = visits.flatMap(({ readings }) => readings).filter(({ file }) => !replaced.has(file.id));
  const steps = [
    ...standing.map(({ file }) => `reading:${file.id}`),
    ...list.file.map(({ key }) => `check:${key}`),
  ];
  await db.fileReviewMark.createMany({
    data: steps.map((step) => ({
      ...{ fileReviewId: row.id, step, markedById: quality.id, markedAt: doneAt },
      mark: found && step === 'check:pace' ? ('finding' as const) : ('ok' as const),
    })),
  });
  if (found)
    await db.fileReviewFinding.create({
      data: {
        ...{ fileReviewId: row.id, step: 'check:pace', check: 'pace', responsibleId: rater.id },
        severity: checkOf(list, 'pace')!.severity,
        text: 'Two readings are a minute apart, at two ends of the house.',
        ...{ dueOn: addDays(doneAt, 14), raisedById: quality.id, raisedBy: quality.name, raisedAt: doneAt },
        ...{ state: 'answered', answeredById: rater.id, answeredBy: rater.name },
        ...{ answer: 'The second was typed in later; from now on at once.', answeredAt: addDays(doneAt, 2) },
      },
    });
  await record(db, system, null, {
    action: 'file review finished',
    recordType: 'file review',
    recordId: row.id,
    houseId: house.id,
    after: { state: 'done', outcome: row.outcome },
  });
}

/** Part of the past year looked at and measured a second time, so that the desk of the demo is not an empty one. */
export async function fillDesk(db: Db, cast: Cast, year: YearStory[]): Promise<void> {
  const { timezone } = await companyOptions(db);
  for (const story of year) await compare(db, cast, story, timezone);
  const reviewed = year.filter((_, i) => i % 17 === 3);
  for (const [i, story] of reviewed.entries()) await review(db, cast, story, i % 4 === 1);
}
