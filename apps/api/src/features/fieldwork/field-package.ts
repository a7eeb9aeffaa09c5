import type { FastifyInstance } from 'fastify';
import canonicalize from 'canonicalize';
import { routes, type FieldPackage } from '@countercheck/contracts';
import { addDays, endOfDay, formatISO, startOfDay } from 'date-fns';
import { TZDate } from '@date-fns/tz';
import { createHash } from 'node:crypto';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { companyOptions } from '../assessment/index.ts';
import { visitParts } from '../visits/index.ts';
import { activeInstruments, sheetOf } from './sheet.ts';

/** A visit that was not handed in stays on the phone for a week, so that it can be. */
const lateDays = 7;

async function visitsFor(db: Db, actor: UserActor, from: Date, to: Date) {
  return db.visit.findMany({
    where: {
      raterId: actor.id,
      OR: [
        { startsAt: { gte: from, lte: to } },
        { state: { in: ['booked', 'in_progress'] }, startsAt: { gte: addDays(from, -lateDays), lt: from } },
      ],
    },
    include: visitParts,
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  });
}

async function contentOf(db: Db, actor: UserActor, days: number) {
  const { name, timezone, blindSecondReading } = await companyOptions(db);
  const from = startOfDay(new TZDate(new Date(), timezone));
  const to = endOfDay(addDays(from, days - 1));
  const ruleSets = new Map<string, FieldPackage['ruleSets'][number]>();
  const sheets: FieldPackage['sheets'] = [];
  for (const visit of await visitsFor(db, actor, from, to)) {
    const { ruleSet, instruments: _, ...sheet } = await sheetOf(db, actor, visit);
    ruleSets.set(ruleSet.id, ruleSet);
    sheets.push({ ...sheet, ruleSetId: ruleSet.id });
  }
  // A day without a visit has instruments too: one may be booked while the phone is away.
  const instruments = await activeInstruments(db, timezone);
  const day = (date: Date) => formatISO(date, { representation: 'date' });
  return {
    ...{ from: day(from), to: day(to), company: { name, timezone, blindSecondReading } },
    ...{ ruleSets: [...ruleSets.values()], instruments, sheets },
  };
}

/** A phone fetches it before it leaves for where there is no network; asked again, it is told when nothing changed. */
export function packFieldwork(app: FastifyInstance): void {
  implementInTransaction(app, routes.fieldwork.fieldPackage, async ({ db, actor, query }) => {
    const content = await contentOf(db, actor, query.days);
    const plain: unknown = JSON.parse(JSON.stringify(content));
    const version = createHash('sha256')
      .update(canonicalize(plain) ?? '')
      .digest('hex');
    if (query.known === version) return { version, content: null };
    return { version, content: { preparedAt: new Date().toISOString(), ...content } };
  });
}
