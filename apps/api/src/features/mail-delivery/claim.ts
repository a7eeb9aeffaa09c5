import { system } from '../../kernel/actor.ts';
import type { Database } from '../../kernel/database/database.ts';

export interface Claimed {
  id: string;
  recipient: string;
  subject: string;
  body: string;
  attempts: number;
}

const mostAttempts = 10;

/**
 * Takes letters that are due, so that no other process takes them too. Before anything is sent the next try
 * is put off (2, 4, 8 … minutes): if this process dies meanwhile, another one takes over then.
 */
export function claimMail(database: Database, most: number): Promise<Claimed[]> {
  return database.as(
    system,
    (db) => db.$queryRaw<Claimed[]>`
      UPDATE outgoing_mail m
      SET attempts = attempts + 1, next_try_at = now() + interval '1 minute' * (2 ^ least(m.attempts + 1, 9))
      WHERE id IN (
        SELECT id FROM outgoing_mail
        WHERE sent_at IS NULL AND next_try_at <= now() AND attempts < ${mostAttempts}
        ORDER BY next_try_at FOR UPDATE SKIP LOCKED LIMIT ${most})
      RETURNING m.id, m.recipient, m.subject, m.body, m.attempts`,
  );
}

/** Once it is on its way, the secret of a one-time link has nothing more to do in the outbox. */
const withoutSecrets = (body: string) => body.replace(/(\/(?:access|figures)\/)[\w-]{20,}/g, '$1…');

export async function markSent(database: Database, letter: Claimed): Promise<void> {
  const data = { sentAt: new Date(), lastError: null, body: withoutSecrets(letter.body) };
  await database.as(system, (db) => db.outgoingMail.update({ where: { id: letter.id }, data }));
}

export async function markFailed(database: Database, letter: Claimed, reason: string): Promise<void> {
  const data = { lastError: reason.slice(0, 500) };
  await database.as(system, (db) => db.outgoingMail.update({ where: { id: letter.id }, data }));
}
