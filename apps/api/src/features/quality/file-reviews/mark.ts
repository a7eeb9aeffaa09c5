import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Checklist } from '@countercheck/quality';
import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, found, invalid } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { given } from '../../../kernel/records/given.ts';
import { checklistFor } from './checklists.ts';
import { heldReview, mustBeMine, today } from './held-review.ts';
import { findingParts, presentFinding, type SummaryRow } from './present.ts';

type Mark = 'ok' | 'finding' | 'not_applicable';

/** A step is a standing reading of the house, or a line of the checklist for the whole file. */
async function refuseUnknownStep(
  db: Db,
  { houseId }: SummaryRow,
  list: Checklist,
  step: string,
): Promise<void> {
  const [kind, key] = step.split(':') as [string, string];
  const known =
    kind === 'check'
      ? list.file.some((check) => check.key === key)
      : (await db.reading.count({ where: { id: key, houseId, supersededBy: null } })) > 0;
  if (!known) throw invalid('step', 'The file has no such step any more; load the review again.');
}

async function setMark(
  db: Db,
  actor: UserActor,
  requestId: string,
  review: SummaryRow,
  step: string,
  mark: Mark,
) {
  const where = { fileReviewId_step: { fileReviewId: review.id, step } };
  const before = await db.fileReviewMark.findUnique({ where });
  if (before?.mark === mark) return;
  const data = { mark, markedById: actor.id, markedAt: new Date() };
  await db.fileReviewMark.upsert({ where, update: data, create: { fileReviewId: review.id, step, ...data } });
  await record(db, actor, requestId, {
    action: 'step marked',
    recordType: 'file review',
    recordId: review.id,
    houseId: review.houseId,
    ...(before ? { before: { step, mark: before.mark } } : {}),
    after: { step, mark },
  });
}

const raters = async (db: Db, id: string) => {
  const person = await db.user.findUnique({ where: { id }, select: { active: true, role: true } });
  if (!person?.active || person.role === 'builder')
    throw invalid('responsibleId', 'Nobody with this id works here.');
};

/** Marks and findings of whoever has taken the review. */
export function markReviews(app: FastifyInstance): void {
  implementInTransaction(app, routes.fileReviews.mark, async ({ db, actor, params, body, request }) => {
    const review = await heldReview(db, params.id);
    mustBeMine(review, actor);
    const list = await checklistFor(review, await today(db));
    await refuseUnknownStep(db, review, list, body.step);
    if (body.mark === 'not_applicable' && body.step.startsWith('reading:'))
      throw invalid('mark', 'A reading is in order, or there is a finding at it.');
    if (body.mark !== 'finding') {
      const standing = await db.fileReviewFinding.count({
        where: { fileReviewId: review.id, step: body.step, automatic: false, state: { not: 'struck' } },
      });
      if (standing > 0)
        throw new AppError('conflict', 'There is a finding at this step. Take it back first if it was none.');
    }
    await setMark(db, actor, request.id, review, body.step, body.mark);
    return { ok: true as const };
  });

  implementInTransaction(app, routes.fileReviews.find, async ({ db, actor, params, body, request }) => {
    const review = await heldReview(db, params.id);
    mustBeMine(review, actor);
    const day = await today(db);
    const list = await checklistFor(review, day);
    await refuseUnknownStep(db, review, list, body.step);
    if (![...list.reading, ...list.file].some(({ key }) => key === body.check))
      throw invalid('check', 'The checklist has no such line.');
    const { step, check, severity, text, dueOn } = body;
    const responsibleId = body.responsibleId ?? review.raterId;
    await raters(db, responsibleId);
    const row = await db.fileReviewFinding.create({
      data: {
        ...{ fileReviewId: review.id, step, check, severity, text, responsibleId },
        dueOn: new Date(dueOn),
        raisedById: actor.id,
        raisedBy: actor.name,
      },
      include: findingParts,
    });
    await record(db, actor, request.id, {
      action: 'file finding raised',
      recordType: 'file finding',
      recordId: row.id,
      houseId: review.houseId,
      after: { step, check, severity, text, responsible: row.responsible.name, dueOn },
    });
    await setMark(db, actor, request.id, review, step, 'finding');
    return presentFinding(row, list, day);
  });

  implementInTransaction(
    app,
    routes.fileReviews.changeFinding,
    async ({ db, actor, params, body, request }) => {
      const before = found(await db.fileReviewFinding.findUnique({ where: params }), 'finding');
      const review = await heldReview(db, before.fileReviewId);
      mustBeMine(review, actor);
      if (before.state !== 'open')
        throw new AppError('conflict', 'It was answered, appealed against or settled already.');
      const { struck, dueOn, ...plain } = body;
      if (struck && before.automatic)
        throw new AppError(
          'conflict',
          'What the computation found goes away by an appeal, not by the reviewer.',
        );
      if (plain.responsibleId) await raters(db, plain.responsibleId);
      const row = await db.fileReviewFinding.update({
        where: params,
        data: {
          ...given(plain),
          ...(dueOn ? { dueOn: new Date(dueOn) } : {}),
          ...(struck ? { state: 'struck' as const } : {}),
        },
        include: findingParts,
      });
      await record(db, actor, request.id, {
        action: 'file finding changed',
        recordType: 'file finding',
        recordId: row.id,
        houseId: review.houseId,
        before: { severity: before.severity, text: before.text, state: before.state },
        after: body,
      });
      const day = await today(db);
      return presentFinding(row, await checklistFor(review, day), day);
    },
  );
}
