import { visitEffort, type VisitNeeds } from '@countercheck/assessment';
import type {
  DeadlineWhy,
  HouseAccess,
  VisitKind,
  VisitRequest,
  VisitRequestSource,
} from '@countercheck/prisma';
import type { Actor } from '../../../kernel/actor.ts';
import { asSystem } from '../../../kernel/database/as-system.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { record } from '../../../kernel/records/events.ts';
import { assessHouse, companyOptions, dayAt } from '../../assessment/index.ts';
import { firstRaters } from '../../booking-rules/index.ts';

export interface VisitRequestOrder {
  houseId: string;
  kind: VisitKind;
  source: VisitRequestSource;
  /** yyyy-mm-dd; today where the company works unless told */
  earliestOn?: string | null;
  deadlineOn?: string | null;
  deadlineWhy?: DeadlineWhy | null;
  /** at the house; by the items that apply unless told */
  minutes?: number;
  needs?: VisitNeeds;
  access?: HouseAccess | null;
  accessNote?: string | null;
  /** between which times of day somebody can be there, HH:MM; both or neither */
  openFrom?: string | null;
  openTo?: string | null;
  /** whose work is looked at */
  avoidRaterId?: string | null;
  note?: string | null;
  reinspectionRequestId?: string | null;
  /** the field re-test that it is for */
  retestId?: string | null;
}

/** Whose work a visit looks at again, unless it is told. */
async function whoseWork(db: Db, houseId: string, kind: VisitKind): Promise<string | null> {
  if (kind !== 'reinspection' && kind !== 'quality') return null;
  return (await firstRaters(db, [houseId])).get(houseId) ?? null;
}

/** How the rater gets in; who comes again is told what was true the last time, until somebody says otherwise. */
async function gettingIn(db: Db, { houseId, kind, access, accessNote, openFrom, openTo }: VisitRequestOrder) {
  const again = kind === 'reinspection' || kind === 'quality';
  const last =
    again && access === undefined
      ? await db.visitRequest.findFirst({
          where: { houseId, kind: { not: 'rough' }, access: { not: null } },
          orderBy: [{ askedAt: 'desc' }, { id: 'desc' }],
        })
      : null;
  return {
    access: access ?? last?.access ?? null,
    accessNote: accessNote ?? last?.accessNote ?? null,
    openFrom: openFrom ?? last?.openFrom ?? null,
    openTo: openTo ?? last?.openTo ?? null,
  };
}

const dateOrNull = (day: string | null | undefined) => (day ? new Date(day) : null);

/**
 * Asks for a visit, in the transaction of whatever makes it necessary, also of an outside party. A house has one
 * request at a time for each kind of visit, quality visits apart: the one that there is, is given back as it is.
 * How long the visit takes and what it needs follows from the items that apply to the house unless it is told.
 */
export async function openVisitRequest(
  db: Db,
  actor: Actor,
  requestId: string | null,
  order: VisitRequestOrder,
): Promise<VisitRequest> {
  return asSystem(db, actor, async () => {
    const { houseId, kind } = order;
    // Two that ask at the same moment are asked one after the other.
    await db.$queryRaw`SELECT id FROM houses WHERE id = ${houseId}::uuid FOR UPDATE`;
    const known =
      kind === 'quality'
        ? null
        : await db.visitRequest.findFirst({ where: { houseId, kind, state: { in: ['open', 'booked'] } } });
    if (known) return known;
    const { timezone } = await companyOptions(db);
    const today = dayAt(new Date(), timezone);
    const { scorecard, file } = await assessHouse(db, houseId);
    const effort = visitEffort(scorecard, file, kind);
    const { instruments, qualifications } = order.needs ?? effort;
    const earliestOn = order.earliestOn ?? today;
    const deadlineOn = order.deadlineOn && order.deadlineOn < earliestOn ? earliestOn : order.deadlineOn;
    const row = await db.visitRequest.create({
      data: {
        ...{ houseId, kind, source: order.source },
        earliestOn: new Date(earliestOn),
        deadlineOn: dateOrNull(deadlineOn),
        deadlineWhy: deadlineOn ? (order.deadlineWhy ?? 'agreed') : null,
        minutes: order.minutes ?? effort.minutes,
        minutesGiven: order.minutes !== undefined || order.needs !== undefined,
        needs: { instruments, qualifications },
        ...(await gettingIn(db, order)),
        avoidRaterId: order.avoidRaterId ?? (await whoseWork(db, houseId, kind)),
        note: order.note ?? null,
        reinspectionRequestId: order.reinspectionRequestId ?? null,
        retestId: order.retestId ?? null,
        askedByName: actor.kind === 'nobody' ? 'nobody signed in' : actor.name,
      },
    });
    await record(db, actor, requestId, {
      action: 'visit asked',
      recordType: 'visit request',
      recordId: row.id,
      houseId,
      after: {
        ...{ kind, source: row.source, earliestOn, deadlineOn },
        minutes: row.minutes,
        needs: row.needs,
      },
      reason: row.note,
    });
    return row;
  });
}
