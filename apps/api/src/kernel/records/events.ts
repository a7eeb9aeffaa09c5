import type { Actor } from '../actor.ts';
import type { Db } from '../database/database.ts';
import { Prisma } from '@countercheck/prisma';
import { eventContent, type EventFields } from '@countercheck/seal';
import { AppError } from '../problems/app-error.ts';

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
  | 'figures opened again'
  | 'instrument registered'
  | 'instrument changed'
  | 'calibration recorded'
  | 'visit asked'
  | 'visit request changed'
  | 'visit request withdrawn'
  | 'readiness answered'
  | 'rater profile changed'
  | 'days off entered'
  | 'days off taken back'
  | 'instruments assigned'
  | 'calendar link made'
  | 'calendar link withdrawn'
  | 'mail preferences changed'
  | 'mail link made'
  | 'mail links withdrawn'
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
  | 'week plan asked'
  | 'week plan cancelled'
  | 'week plan ended'
  | 'planned visits accepted'
  | 'planned visits rejected'
  | 'planning settings changed'
  | 'replay asked'
  | 'replay cancelled'
  | 'replay ended'
  | 'recall begun'
  | 'recall cancelled'
  | 'recall ended'
  | 'recall letter sent'
  | 'draw published'
  | 'draw frozen'
  | 'draw revealed'
  | 'draw ordered'
  | 'share changed'
  | 'batch opened'
  | 'batch result taken'
  | 'batch set opened'
  | 'look at readings asked'
  | 'look at readings cancelled'
  | 'look at readings ended'
  | 'finding on readings dismissed'
  | 'finding on readings followed up';

export interface EventEntry {
  action: Action;
  recordType: string;
  recordId: string;
  houseId?: string | null;
  before?: unknown;
  after?: unknown;
  reason?: string | null;
}

/** As JSON keeps it: no dates, nothing undefined. */
const plain = (value: unknown): unknown =>
  value === undefined ? null : (JSON.parse(JSON.stringify(value)) as unknown);
const column = (value: unknown) => (value === null ? Prisma.DbNull : (value as Prisma.InputJsonValue));

function contentOf(event: EventFields): string {
  try {
    return eventContent(event);
  } catch {
    throw new AppError('invalid-input', 'There is a character in it that cannot be kept.');
  }
}

/**
 * Appends to the log in the transaction of the change, each entry with its canonical content; the database chains
 * them when the transaction commits. Nothing is read back, since outside parties may write their deeds but not
 * read the log.
 */
export async function record(
  db: Db,
  actor: Actor,
  requestId: string | null,
  ...entries: EventEntry[]
): Promise<void> {
  const at = new Date();
  await db.event.createMany({
    data: entries.map((entry) => {
      const event = {
        at,
        actorKind: actor.kind === 'user' ? actor.role : actor.kind,
        actorId: actor.kind === 'user' || actor.kind === 'installer' ? actor.id : null,
        actorName: actor.kind === 'nobody' ? 'nobody signed in' : actor.name,
        action: entry.action,
        recordType: entry.recordType,
        recordId: entry.recordId,
        houseId: entry.houseId ?? null,
        before: plain(entry.before),
        after: plain(entry.after),
        reason: entry.reason ?? null,
        requestId,
      };
      return {
        ...event,
        before: column(event.before),
        after: column(event.after),
        content: contentOf(event),
      };
    }),
  });
}
