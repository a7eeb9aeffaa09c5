import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { reassess } from '../assessment/index.ts';
import { lockHouse } from '../houses/index.ts';
import { openVisitRequest } from '../visits/index.ts';
import { checkFigures } from './check-figures.ts';
import { openingOf } from './openings.ts';
import { askedOf, submissionsOf } from './form.ts';

export function signFigures(app: FastifyInstance): void {
  implementInTransaction(app, routes.installers.sign, async ({ db, actor, body, request }) => {
    // Whoever takes the first reading holds the house too, so a signature is wholly before or after it.
    const locked = await lockHouse(db, actor.houseId);
    const [newest, ...older] = await submissionsOf(db, actor, locked.id);
    const frozen = [newest, ...older].some((each) => (each?.frozenAt ?? null) !== null);
    if ((frozen && !(await openingOf(db, locked.id))) || locked.stage === 'released')
      throw new AppError('figures-frozen');
    if ((newest?.revision ?? 0) !== body.expectedRevision) throw new AppError('conflict');

    const house = await db.house.findUniqueOrThrow({ where: { id: locked.id } });
    const figures = checkFigures(await askedOf(db, house), body.figures);
    const { id, revision } = await db.installerSubmission.create({
      data: {
        houseId: house.id,
        installerId: actor.id,
        linkId: actor.linkId,
        revision: body.expectedRevision + 1,
        figures,
        signedName: body.signedName,
      },
    });
    await record(db, actor, request.id, {
      action: 'figures signed',
      recordType: 'figures',
      recordId: id,
      houseId: house.id,
      ...(newest ? { before: { revision: newest.revision, figures: newest.figures } } : {}),
      after: { revision, figures, signedName: body.signedName },
    });
    if (locked.stage === 'awaiting_figures') await moveStage(db, actor, request.id, locked, 'ready_to_book');
    await reassess(db, actor, request.id, house.id);
    if (locked.stage === 'awaiting_figures')
      await openVisitRequest(db, actor, request.id, {
        ...{ houseId: house.id, kind: 'final', source: 'house_ready' },
      });
    const [signed] = await submissionsOf(db, actor, house.id);
    return signed!;
  });
}
