import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { lockHouse, refuseSealed, type LockedHouse } from '../houses/index.ts';
import { makeLink } from './links.ts';
import { correctedByFigures, openingOf, presentOpening } from './openings.ts';

/** Why figures cannot be opened again now; every refusal says what to do instead. */
async function refuseOpening(db: Db, house: LockedHouse & { ruleSetId: string }) {
  refuseSealed(house);
  if (house.stage === 'in_testing')
    throw new AppError('conflict', 'The rater is measuring. Open the figures once his visit is submitted.');
  const frozen = await db.installerSubmission.count({
    where: { houseId: house.id, frozenAt: { not: null } },
  });
  if (frozen === 0)
    throw new AppError('conflict', 'No rater has read against these figures: the installer can still sign.');
  if (await openingOf(db, house.id))
    throw new AppError('conflict', 'The figures are open already. Make a link for the installer.');
  const corrected = await correctedByFigures(db, house);
  if (corrected.length === 0)
    throw new AppError(
      'conflict',
      'No corrected item is judged by the installer’s figures. Record the correction of a failed item first.',
    );
  return corrected;
}

/**
 * Lets the installer sign once more for a reinspection, with the reason in the log. What he signed before stays
 * frozen, and what was read against it stays judged by it.
 */
export function openFiguresAgain(app: FastifyInstance): void {
  implementInTransaction(app, routes.installers.openAgain, async ({ db, actor, params, body, request }) => {
    const locked = await lockHouse(db, params.id);
    const { address, ruleSetId } = await db.house.findUniqueOrThrow({ where: params });
    const items = await refuseOpening(db, { ...locked, ruleSetId });
    const { reason, ...linkFor } = body;
    const opening = await db.figureOpening.create({
      data: { houseId: locked.id, reason, openedById: actor.id, openedBy: actor.name },
    });
    await record(db, actor, request.id, {
      action: 'figures opened again',
      recordType: 'figures',
      recordId: opening.id,
      houseId: locked.id,
      after: { items: items.map(({ item, subjectLabel }) => ({ item, subjectLabel })) },
      reason,
    });
    const sent = await makeLink(app, db, actor, request.id, { id: locked.id, address }, linkFor, reason);
    return { ...sent, opening: presentOpening(opening) };
  });
}
