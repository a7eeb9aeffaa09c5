import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, found } from '../../../kernel/problems/app-error.ts';
import { record, type EventEntry } from '../../../kernel/records/events.ts';
import { queueMail } from '../../../kernel/records/mail.ts';
import { refuseOwnWork } from '../../review/index.ts';
import { countCleanFiles } from '../corrective/clean-files.ts';
import { checklistFor } from './checklists.ts';
import { outcomeOf } from './finish.ts';
import { heldReview, today } from './held-review.ts';
import { ownFindings, told } from './list-findings.ts';
import { findingParts, presentFinding, type FindingRow, type SummaryRow } from './present.ts';

/** A finding of a finished review, kept from being changed by anybody else; a rater reaches his own only. */
async function heldFinding(
  db: Db,
  actor: UserActor,
  id: string,
): Promise<{ finding: FindingRow; review: SummaryRow }> {
  const where = { AND: [{ id }, told, actor.role === 'rater' ? ownFindings(actor) : {}] };
  const { fileReviewId } = found(
    await db.fileReviewFinding.findFirst({ where, select: { fileReviewId: true } }),
    'finding',
  );
  const review = await heldReview(db, fileReviewId);
  const finding = await db.fileReviewFinding.findUniqueOrThrow({ where: { id }, include: findingParts });
  return { finding, review };
}

async function change(
  db: Db,
  { finding, review }: { finding: FindingRow; review: SummaryRow },
  data: Prisma.FileReviewFindingUpdateInput,
  told: (event: Omit<EventEntry, 'action'>) => Promise<void>,
) {
  const row = await db.fileReviewFinding.update({ where: { id: finding.id }, data, include: findingParts });
  await told({
    recordType: 'file finding',
    recordId: row.id,
    houseId: review.houseId,
    before: { state: finding.state, severity: finding.severity },
    after: { state: row.state, severity: row.severity },
  });
  const day = await today(db);
  return presentFinding(row, await checklistFor(review, day), day);
}

/** What a struck or lighter finding does to the review: its outcome is worked out again. */
async function settleReview(db: Db, requestId: string, review: SummaryRow): Promise<void> {
  const appeals = await db.fileReviewFinding.count({
    where: { fileReviewId: review.id, state: 'appealed' },
  });
  const outcome = await outcomeOf(db, review.id);
  await db.fileReview.update({
    where: { id: review.id },
    data: { state: appeals > 0 ? 'appealed' : 'done', outcome },
  });
  await countCleanFiles(db, requestId, review);
}

/** What those concerned say to a finding, and what becomes of it; never by one person alone. */
export function respondToFindings(app: FastifyInstance): void {
  implementInTransaction(app, routes.fileReviews.answer, async ({ db, actor, params, body, request }) => {
    const held = await heldFinding(db, actor, params.id);
    const { finding } = held;
    if (finding.responsibleId !== actor.id)
      throw new AppError('conflict', `${finding.responsible.name} answers this finding.`);
    if (finding.state !== 'open' && finding.state !== 'answered')
      throw new AppError('conflict', 'It is under appeal, settled or struck; there is nothing to answer.');
    const data = {
      ...{ state: 'answered' as const, answer: body.answer, answeredAt: new Date() },
      ...{ answeredById: actor.id, answeredBy: actor.name },
    };
    return change(db, held, data, (event) =>
      record(db, actor, request.id, { ...event, action: 'file finding answered', reason: body.answer }),
    );
  });

  implementInTransaction(app, routes.fileReviews.settle, async ({ db, actor, params, body, request }) => {
    const held = await heldFinding(db, actor, params.id);
    const { finding, review } = held;
    if (finding.answeredById === actor.id || finding.responsibleId === actor.id)
      throw new AppError('own-work', 'Nobody accepts his own answer.');
    await refuseOwnWork(db, actor, review.houseId);
    if (finding.state !== 'answered')
      throw new AppError('conflict', 'Only an answered finding can be settled.');
    const data = {
      ...{ state: 'settled' as const, settledAt: new Date(), settledNote: body.note },
      ...{ settledById: actor.id, settledBy: actor.name },
    };
    return change(db, held, data, (event) =>
      record(db, actor, request.id, { ...event, action: 'file finding settled', reason: body.note }),
    );
  });

  implementInTransaction(app, routes.fileReviews.appeal, async ({ db, actor, params, body, request }) => {
    const held = await heldFinding(db, actor, params.id);
    const { finding, review } = held;
    if (review.raterId !== actor.id)
      throw new AppError('conflict', 'Only the rater whose file it is can appeal.');
    if (finding.decision)
      throw new AppError('conflict', 'An appeal against it was decided already; that decision stands.');
    if (finding.state !== 'open' && finding.state !== 'answered')
      throw new AppError('conflict', 'It is under appeal, settled or struck already.');
    const data = {
      ...{ state: 'appealed' as const, appeal: body.appeal },
      ...{ appealedAt: new Date(), appealedById: actor.id },
    };
    await db.fileReview.update({ where: { id: review.id }, data: { state: 'appealed' } });
    const deciders = await db.user.findMany({
      where: {
        active: true,
        role: { in: ['quality', 'administrator'] },
        id: { notIn: [finding.raisedById, ...(review.reviewerId ? [review.reviewerId] : [])] },
      },
      select: { email: true },
    });
    await queueMail(
      db,
      ...deciders.map(({ email }) => ({
        recipient: email,
        subject: `Appeal against a finding: ${review.house.address}`,
        body: `${actor.name} appeals: ${body.appeal}\n\n${app.config.publicUrl}/file-reviews/${review.id}\n`,
        about: 'appeal',
      })),
    );
    return change(db, held, data, (event) =>
      record(db, actor, request.id, { ...event, action: 'file finding appealed', reason: body.appeal }),
    );
  });

  implementInTransaction(app, routes.fileReviews.decide, async ({ db, actor, params, body, request }) => {
    const held = await heldFinding(db, actor, params.id);
    const { finding, review } = held;
    if (finding.state !== 'appealed') throw new AppError('conflict', 'There is no open appeal against it.');
    if (finding.raisedById === actor.id || review.reviewerId === actor.id)
      throw new AppError('own-work', 'Whoever found it does not decide the appeal against it.');
    await refuseOwnWork(db, actor, review.houseId);
    const stands = finding.answer === null ? ('open' as const) : ('answered' as const);
    const data = {
      state: body.decision === 'struck' ? ('struck' as const) : stands,
      ...(body.severity ? { severity: body.severity } : {}),
      ...{ decision: body.decision, decisionReason: body.reason },
      ...{ decidedAt: new Date(), decidedById: actor.id, decidedBy: actor.name },
    };
    const answer = await change(db, held, data, (event) =>
      record(db, actor, request.id, { ...event, action: 'appeal decided', reason: body.reason }),
    );
    await settleReview(db, request.id, review);
    const rater = await db.user.findUnique({ where: { id: review.raterId } });
    const words = {
      upheld: 'The finding stands',
      changed: 'The finding weighs differently',
      struck: 'The finding is struck',
    };
    if (rater?.active)
      await queueMail(db, {
        recipient: rater.email,
        subject: `Your appeal: ${review.house.address}`,
        body: `${words[body.decision]}. ${body.reason}\n\n${app.config.publicUrl}/file-findings\n`,
        about: 'appeal',
      });
    return answer;
  });
}
