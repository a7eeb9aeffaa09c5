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
import { secondMeasurement } from '../retests/index.ts';
import { presentVisit, visitParts, type VisitRow } from '../visits/index.ts';
import { inOrderTaken, presentReading, readingParts } from './present.ts';
import { inScope } from './scope.ts';
import { siteOf } from './site.ts';

const notOfRetest = { OR: [{ visitId: null }, { visit: { kind: { not: 'quality' as const } } }] };

/** The instruments in use, each with its calibrations. */
export async function activeInstruments(db: Db, timezone: string): Promise<VisitSheet['instruments']> {
  const rows = await db.instrument.findMany({
    where: { active: true },
    include: instrumentParts,
    orderBy: [{ kind: 'asc' }, { label: 'asc' }],
  });
  return rows.map((row) => presentInstrument(row, timezone));
}

/** Everything a rater needs on one house; nothing of what a blind second reading keeps from him. */
export async function sheetOf(db: Db, actor: UserActor, visit: VisitRow): Promise<VisitSheet> {
  if (visit.kind === 'quality') return retestSheetOf(db, visit);
  const { houseId } = visit;
  const { blindSecondReading, timezone } = await companyOptions(db);
  const blind = blindSecondReading && actor.role === 'rater';
  const { file, ruleSet, scorecard } = await assessHouse(db, houseId, { blind });
  // Nor does the first rater learn what a second one measures.
  const first = { houseId, ...notOfRetest };
  const { id, key, version, title, set } = ruleSet;
  return {
    visit: presentVisit(visit),
    file: file as VisitSheet['file'],
    ruleSet: { id, key, version, title, body: set },
    verdicts: inScope(visit, scorecard.verdicts) as VisitSheet['verdicts'],
    releasable: scorecard.releasable,
    stopWork: scorecard.stopWork,
    ...(await recordsOf(db, first, timezone)),
    figuresRevision: (await figuresInForce(db, houseId))?.revision ?? null,
    blind,
    site: await siteOf(db, visit.id),
  };
}

/** Readings and photos of the visits named, and the instruments there are. */
async function recordsOf(
  db: Db,
  where: { visitId: string } | ({ houseId: string } & typeof notOfRetest),
  timezone: string,
): Promise<Pick<VisitSheet, 'readings' | 'photos' | 'instruments'>> {
  const readings = await db.reading.findMany({
    where: 'visitId' in where ? where : { houseId: where.houseId, visit: { kind: { not: 'quality' } } },
    include: readingParts,
    orderBy: inOrderTaken,
  });
  const photos = await db.attachment.findMany({
    where,
    include: withFile,
    orderBy: [{ addedAt: 'asc' }, { id: 'asc' }],
  });
  return {
    readings: readings.map((row) => presentReading(row, timezone)),
    photos: photos.map(presentPhoto),
    instruments: await activeInstruments(db, timezone),
  };
}

/**
 * The sheet of a second measurement, for whoever asks: the parts of the house, what is to be measured again and what
 * this visit read. What was measured first, what it came to and what the installer reported are not in it.
 */
async function retestSheetOf(db: Db, visit: VisitRow): Promise<VisitSheet> {
  const { file, ruleSet, verdicts, stopWork } = await secondMeasurement(db, visit);
  const { timezone } = await companyOptions(db);
  const { id, key, version, title, set } = ruleSet;
  return {
    visit: presentVisit(visit),
    file: file as VisitSheet['file'],
    ruleSet: { id, key, version, title, body: set },
    verdicts: verdicts as VisitSheet['verdicts'],
    releasable: false,
    stopWork,
    ...(await recordsOf(db, { visitId: visit.id }, timezone)),
    figuresRevision: null,
    blind: true,
    site: await siteOf(db, visit.id),
  };
}

export function showSheet(app: FastifyInstance): void {
  implementInTransaction(app, routes.fieldwork.sheet, async ({ db, actor, params }) => {
    const visit = found(await db.visit.findUnique({ where: params, include: visitParts }), 'visit');
    if (actor.role === 'rater' && visit.raterId !== actor.id) throw new AppError('visit-not-yours');
    return sheetOf(db, actor, visit);
  });
}
