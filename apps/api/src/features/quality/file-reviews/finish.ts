import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Db } from '../../../kernel/database/database.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { queueMail } from '../../../kernel/records/mail.ts';
import { refuseOwnWork } from '../../review/index.ts';
import { countCleanFiles } from '../corrective/clean-files.ts';
import { checklistFor } from './checklists.ts';
import { stepsOf, type ReviewedFile } from './file.ts';
import { heldReview, mustBeMine, mustBeOpen, today } from './held-review.ts';
import { presentSummary, type SummaryRow } from './present.ts';
import { raiseAutomatic } from './raise.ts';

/** A remark asks for nothing, so a file with remarks only is clean. */
export async function outcomeOf(db: Db, fileReviewId: string): Promise<'clean' | 'findings'> {
  const weighing = await db.fileReviewFinding.count({
    where: { fileReviewId, state: { not: 'struck' }, severity: { not: 'remark' } },
  });
  return weighing === 0 ? 'clean' : 'findings';
}

async function refuseUnseen(db: Db, review: SummaryRow, file: ReviewedFile): Promise<void> {
  const list = await checklistFor(review, await today(db));
  const steps = stepsOf(file, list);
  const marks = await db.fileReviewMark.findMany({ where: { fileReviewId: review.id } });
  const findings = await db.fileReviewFinding.findMany({
    where: { fileReviewId: review.id, OR: [{ state: { not: 'struck' } }, { decision: 'struck' }] },
    select: { step: true },
  });
  const seen = new Set(
    marks
      // A finding that its reviewer took back leaves the step to be looked at again; one struck on appeal does not.
      .filter(({ step, mark }) => mark !== 'finding' || findings.some((finding) => finding.step === step))
      .map(({ step }) => step),
  );
  const unseen = steps.filter(({ step }) => !seen.has(step));
  if (unseen.length === 0) return;
  const fields = unseen.map(({ step, title, subject }) => ({
    path: step,
    message: subject ? `${title}, ${subject}` : title,
  }));
  throw new AppError(
    'review-not-complete',
    `Not looked at yet: ${unseen.length} of ${steps.length} (${fields
      .slice(0, 5)
      .map(({ message }) => message)
      .join('; ')}${unseen.length > 5 ? '; …' : ''}).`,
    fields,
  );
}

async function tellResponsible(db: Db, review: SummaryRow, url: string): Promise<void> {
  const findings = await db.fileReviewFinding.findMany({
    where: { fileReviewId: review.id, state: 'open' },
    include: { responsible: { select: { email: true, active: true } } },
    orderBy: { raisedAt: 'asc' },
  });
  const place = `${review.house.address} (lot ${review.house.lot})`;
  const readers = [
    ...new Set(findings.flatMap(({ responsible: { email, active } }) => (active ? [email] : []))),
  ];
  await queueMail(
    db,
    ...readers.map((recipient) => {
      const own = findings.filter(({ responsible }) => responsible.email === recipient);
      const lines = own.map(
        ({ severity, text, dueOn }) => `- ${severity}: ${text} (by ${dueOn.toISOString().slice(0, 10)})`,
      );
      return {
        recipient,
        subject: `${own.length === 1 ? 'One finding' : `${own.length} findings`} in the file of ${place}`,
        body: `The file of ${place} was reviewed.\n\n${lines.join('\n')}\n\nAnswer or appeal: ${url}/file-findings\n`,
        about: 'file review',
      };
    }),
  );
}

export function finishReviews(app: FastifyInstance): void {
  implementInTransaction(app, routes.fileReviews.finish, async ({ db, actor, params, body, request }) => {
    const review = await heldReview(db, params.id);
    mustBeMine(review, actor);
    await refuseOwnWork(db, actor, review.houseId);
    const file = await raiseAutomatic(db, actor, request.id, review);
    await refuseUnseen(db, review, file);
    const outcome = await outcomeOf(db, review.id);
    const doneAt = new Date();
    await db.fileReview.update({
      where: params,
      data: { state: 'done', outcome, doneAt, note: body.note ?? review.note },
    });
    const minutes = review.startedAt ? (doneAt.getTime() - review.startedAt.getTime()) / 60_000 : null;
    await record(db, actor, request.id, {
      action: 'file review finished',
      recordType: 'file review',
      recordId: review.id,
      houseId: review.houseId,
      before: { state: review.state },
      after: { state: 'done', outcome, minutes: minutes === null ? null : Math.round(minutes * 10) / 10 },
      reason: body.note,
    });
    await tellResponsible(db, review, app.config.publicUrl);
    await countCleanFiles(db, request.id, review);
    return presentSummary(await heldReview(db, params.id), await today(db));
  });

  implementInTransaction(app, routes.fileReviews.reopen, async ({ db, actor, params, body, request }) => {
    const review = await heldReview(db, params.id);
    if (review.state === 'open') throw new AppError('conflict', 'The review is open already.');
    if (review.state === 'withdrawn')
      throw new AppError('conflict', 'The review was withdrawn; order another one.');
    if (review.state === 'appealed')
      throw new AppError('conflict', 'An appeal is open; decide it first, then open the review again.');
    await refuseOwnWork(db, actor, review.houseId);
    const { houseId, revision } = review;
    const other = await db.fileReview.count({ where: { houseId, revision, state: 'open' } });
    if (other > 0) throw new AppError('conflict', 'The file is under another review already.');
    await db.fileReview.update({
      where: params,
      data: { state: 'open', outcome: null, doneAt: null, timesReopened: { increment: 1 } },
    });
    await record(db, actor, request.id, {
      action: 'file review reopened',
      recordType: 'file review',
      recordId: review.id,
      houseId,
      before: { state: review.state, outcome: review.outcome, doneAt: review.doneAt },
      after: { state: 'open' },
      reason: body.reason,
    });
    return presentSummary(await heldReview(db, params.id), await today(db));
  });

  implementInTransaction(app, routes.fileReviews.withdraw, async ({ db, actor, params, body, request }) => {
    const review = await heldReview(db, params.id);
    mustBeOpen(review);
    if (review.source === 'draw')
      throw new AppError('conflict', 'It was drawn; a draw that leaves out what it drew proves nothing.');
    await db.fileReview.update({ where: params, data: { state: 'withdrawn' } });
    await record(db, actor, request.id, {
      action: 'file review withdrawn',
      recordType: 'file review',
      recordId: review.id,
      houseId: review.houseId,
      before: { state: review.state },
      after: { state: 'withdrawn' },
      reason: body.reason,
    });
    return presentSummary(await heldReview(db, params.id), await today(db));
  });
}
