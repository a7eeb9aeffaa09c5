import type { Actor } from '../actor.ts';
import type { Db } from '../database/database.ts';
import { Prisma } from '@countercheck/prisma';

/** What was done, in the past tense of the trade: the closed list of the log. */
export type Action =
  | 'signed in'
  | 'signed out'
  | 'sign-in refused'
  | 'password changed'
  | 'password reset asked'
  | 'second factor set'
  | 'second factor removed'
  | 'user invited'
  | 'user changed'
  | 'sessions ended'
  | 'company changed'
  | 'builder registered'
  | 'builder changed'
  | 'contact added'
  | 'contact changed'
  | 'contact removed'
  | 'community added'
  | 'community changed'
  | 'plan added'
  | 'plan changed'
  | 'house registered'
  | 'houses imported'
  | 'house changed'
  | 'stage changed'
  | 'installer registered'
  | 'installer changed'
  | 'link sent'
  | 'link withdrawn'
  | 'figures signed'
  | 'figures frozen'
  | 'instrument registered'
  | 'instrument changed'
  | 'calibration recorded'
  | 'visit asked'
  | 'visit request changed'
  | 'visit request withdrawn'
  | 'visit booked'
  | 'visit moved'
  | 'visit cancelled'
  | 'visit begun'
  | 'visit submitted'
  | 'visit not ready'
  | 'visit reopened'
  | 'reading recorded'
  | 'reading superseded'
  | 'photo added'
  | 'verdict changed'
  | 'item failed'
  | 'item corrected'
  | 'item closed'
  | 'item reopened'
  | 'reinspection asked'
  | 'file returned'
  | 'finding answered'
  | 'review requested'
  | 'file released'
  | 'revision opened'
  | 'file review ordered'
  | 'file review taken'
  | 'file review given back'
  | 'file review finished'
  | 'file review reopened'
  | 'file review withdrawn'
  | 'step marked'
  | 'file finding raised'
  | 'file finding changed'
  | 'file finding answered'
  | 'file finding settled'
  | 'file finding appealed'
  | 'appeal decided'
  | 're-test ordered'
  | 're-test booked'
  | 're-test released from its visit'
  | 're-test compared'
  | 're-test withdrawn'
  | 'corrective action opened'
  | 'corrective action changed'
  | 'evidence added'
  | 'effectiveness checked'
  | 'corrective action closed'
  | 'clean files reached'
  | 'rater held'
  | 'hold lifted'
  | 'rule set published'
  | 'rule set offered'
  | 'replay asked'
  | 'replay cancelled'
  | 'replay ended'
  | 'recall begun'
  | 'recall cancelled'
  | 'recall ended'
  | 'recall letter sent';

export interface EventEntry {
  action: Action;
  recordType: string;
  recordId: string;
  houseId?: string | null;
  before?: unknown;
  after?: unknown;
  reason?: string | null;
}

const json = (value: unknown) =>
  value === undefined ? Prisma.DbNull : (JSON.parse(JSON.stringify(value)) as Prisma.InputJsonValue);

/**
 * Appends to the log in the transaction of the change. Nothing is read back, since outside parties may
 * write their deeds but not read the log.
 */
export async function record(
  db: Db,
  actor: Actor,
  requestId: string | null,
  ...entries: EventEntry[]
): Promise<void> {
  await db.event.createMany({
    data: entries.map((entry) => ({
      actorKind: actor.kind === 'user' ? actor.role : actor.kind,
      actorId: actor.kind === 'user' || actor.kind === 'installer' ? actor.id : null,
      actorName: actor.kind === 'nobody' ? 'nobody signed in' : actor.name,
      action: entry.action,
      recordType: entry.recordType,
      recordId: entry.recordId,
      houseId: entry.houseId ?? null,
      before: json(entry.before),
      after: json(entry.after),
      reason: entry.reason ?? null,
      requestId,
    })),
  });
}
