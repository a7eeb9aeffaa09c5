import type { FastifyInstance } from 'fastify';
import { routes, type VisitSheet } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { assessHouse, companyOptions } from '../assessment/index.ts';
import { figuresInForce } from '../installers/index.ts';
import { instrumentParts, presentInstrument } from '../instruments/index.ts';
import { presentPhoto, withFile } from '../photos/index.ts';
import { presentVisit, visitParts, type VisitRow } from '../visits/index.ts';
import { inOrderTaken, presentReading, readingParts } from './present.ts';
import { inScope } from './scope.ts';

/** Everything a rater needs on one house; nothing of what a blind second reading keeps from him. */
export async function sheetOf(db: Db, actor: UserActor, visit: VisitRow): Promise<VisitSheet> {
  const { houseId } = visit;
  const { blindSecondReading, timezone } = await companyOptions(db);
  const blind = blindSecondReading && actor.role === 'rater';
  const { file, ruleSet, scorecard } = await assessHouse(db, houseId, { blind });
  const readings = await db.reading.findMany({
    where: { houseId },
    include: readingParts,
    orderBy: inOrderTaken,
  });
  const photos = await db.attachment.findMany({
    where: { houseId },
    include: withFile,
    orderBy: [{ addedAt: 'asc' }, { id: 'asc' }],
  });
  const instruments = await db.instrument.findMany({
    where: { active: true },
    include: instrumentParts,
    orderBy: [{ kind: 'asc' }, { label: 'asc' }],
  });
  const { id, key, version, title, set } = ruleSet;
  return {
    visit: presentVisit(visit),
    file: file as VisitSheet['file'],
    ruleSet: { id, key, version, title, body: set },
    verdicts: inScope(visit, scorecard.verdicts) as VisitSheet['verdicts'],
    releasable: scorecard.releasable,
    stopWork: scorecard.stopWork,
    readings: readings.map((row) => presentReading(row, timezone)),
    photos: photos.map(presentPhoto),
    instruments: instruments.map((row) => presentInstrument(row, timezone)),
    figuresRevision: (await figuresInForce(db, houseId))?.revision ?? null,
    blind,
  };
}

export function showSheet(app: FastifyInstance): void {
  implementInTransaction(app, routes.fieldwork.sheet, async ({ db, actor, params }) => {
    const visit = found(await db.visit.findUnique({ where: params, include: visitParts }), 'visit');
    if (actor.role === 'rater' && visit.raterId !== actor.id) throw new AppError('visit-not-yours');
    return sheetOf(db, actor, visit);
  });
}
