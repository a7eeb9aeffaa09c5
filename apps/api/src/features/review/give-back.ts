import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { queueMail } from '../../kernel/records/mail.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { reassess } from '../assessment/index.ts';
import { lockHouse, refuseSealed } from '../houses/index.ts';
import { refuseOwnWork } from './policy.ts';
import { presentReview, withFindings, type ReviewRow } from './present.ts';

async function tellRaters(db: Db, houseId: string, review: ReviewRow, url: string): Promise<void> {
  const { address, lot } = await db.house.findUniqueOrThrow({ where: { id: houseId } });
  const raters = await db.user.findMany({
    where: { active: true, visits: { some: { houseId, state: 'submitted' } } },
    select: { email: true },
  });
  const findings = review.findings.map(({ severity, text }) => `- ${severity}: ${text}`);
  const body = [
    `${review.reviewer} returned the file of ${address} (lot ${lot}).`,
    ...(review.note ? ['', review.note] : []),
    '',
    ...findings,
    '',
    `${url}/houses/${houseId}`,
    '',
  ].join('\n');
  await queueMail(
    db,
    ...raters.map(({ email }) => ({
      recipient: email,
      subject: `File returned: ${address} (lot ${lot})`,
      body,
      about: 'file returned',
    })),
  );
}

export function giveFilesBack(app: FastifyInstance): void {
  implementInTransaction(app, routes.review.giveBack, async ({ db, actor, params, body, request }) => {
    const house = await lockHouse(db, params.id);
    refuseSealed(house);
    if (house.stage !== 'in_review')
      throw new AppError('conflict', 'The file does not lie before the quality manager.');
    await refuseOwnWork(db, actor, house.id);
    const { revision } = found(await db.house.findUnique({ where: params }), 'house');
    const review = await db.review.create({
      data: {
        ...{ houseId: house.id, revision, outcome: 'returned', note: body.note },
        reviewerId: actor.id,
        reviewer: actor.name,
        findings: { create: body.findings },
      },
      include: withFindings,
    });
    await record(db, actor, request.id, {
      action: 'file returned',
      recordType: 'review',
      recordId: review.id,
      houseId: house.id,
      after: { revision, findings: body.findings },
      reason: body.note,
    });
    // What the raw readings give now is what the answer to the findings starts from.
    await reassess(db, actor, request.id, house.id);
    await moveStage(db, actor, request.id, house, 'returned');
    await tellRaters(db, house.id, review, app.config.publicUrl);
    return presentReview(review);
  });
}
