import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Actor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found, invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { given } from '../../kernel/records/given.ts';
import { companyOptions, dayAt, reassess } from '../assessment/index.ts';
import { instrumentParts, presentInstrument } from './present.ts';

async function shown(db: Db, id: string) {
  const row = await db.instrument.findUniqueOrThrow({ where: { id }, include: instrumentParts });
  return presentInstrument(row, (await companyOptions(db)).timezone);
}

/**
 * A calibration that is recorded late changes what was read since, another accuracy everything that was read; released
 * files stay as they were sealed.
 */
async function reassessReadSince(
  db: Db,
  actor: Actor,
  requestId: string,
  instrumentId: string,
  since: Date | null,
) {
  const read = { instrumentId, ...(since ? { takenAt: { gte: since } } : {}) };
  const houses = await db.house.findMany({
    where: { stage: { not: 'released' }, readings: { some: read } },
    select: { id: true },
    orderBy: { id: 'asc' },
  });
  for (const { id } of houses) await reassess(db, actor, requestId, id);
}

/** What a reading's uncertainty, and with a guard band its verdict, rests on. */
const judging = ['accuracyPercent', 'accuracyAbsolute', 'resolution'] as const;

export function keepInstruments(app: FastifyInstance): void {
  implementInTransaction(app, routes.instruments.register, async ({ db, actor, body, request }) => {
    const { id } = await db.instrument.create({ data: body });
    await record(db, actor, request.id, {
      action: 'instrument registered',
      recordType: 'instrument',
      recordId: id,
      after: body,
    });
    return shown(db, id);
  });

  implementInTransaction(app, routes.instruments.change, async ({ db, actor, params, body, request }) => {
    const before = found(await db.instrument.findUnique({ where: params }), 'instrument');
    const after = await db.instrument.update({ where: params, data: given(body) });
    await record(db, actor, request.id, {
      action: 'instrument changed',
      recordType: 'instrument',
      recordId: params.id,
      before,
      after: body,
    });
    if (judging.some((key) => before[key] !== after[key]))
      await reassessReadSince(db, actor, request.id, params.id, null);
    return shown(db, params.id);
  });

  implementInTransaction(app, routes.instruments.calibrate, async ({ db, actor, params, body, request }) => {
    const { label } = found(await db.instrument.findUnique({ where: params }), 'instrument');
    const today = dayAt(new Date(), (await companyOptions(db)).timezone);
    if (body.calibratedOn > today) throw invalid('calibratedOn', 'A calibration that has not been made yet.');
    const twice = body.ranges.findIndex(({ range }, i) =>
      body.ranges.some((r, j) => j < i && r.range === range),
    );
    if (twice >= 0) throw invalid(`ranges.${twice}.range`, 'This range is in the list twice.');
    const { ranges, certificate } = body;
    const [calibratedOn, dueOn] = [new Date(body.calibratedOn), new Date(body.dueOn)];
    const where = { instrumentId_calibratedOn: { instrumentId: params.id, calibratedOn } };
    if (await db.instrumentCalibration.findUnique({ where }))
      throw new AppError('already-exists', `${label} has a calibration of ${body.calibratedOn} already.`);
    await db.instrumentCalibration.create({
      data: { instrumentId: params.id, calibratedOn, dueOn, certificate, ranges },
    });
    await record(db, actor, request.id, {
      action: 'calibration recorded',
      recordType: 'instrument',
      recordId: params.id,
      after: body,
    });
    await reassessReadSince(db, actor, request.id, params.id, calibratedOn);
    return shown(db, params.id);
  });
}
