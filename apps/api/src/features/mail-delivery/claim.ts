import { system } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { newMailLink } from '../../kernel/records/mail-link.ts';

export interface Claimed {
  id: string;
  recipient: string;
  subject: string;
  body: string;
  attempts: number;
  /** where a contact without an account says which mail it wants */
  choicesUrl: string | null;
  /** a newer letter tells the same person of the same visit */
  overtaken: boolean;
}

type Taken = Omit<Claimed, 'choicesUrl' | 'overtaken'> & {
  contactId: string | null;
  uniqueKey: string | null;
  createdAt: Date;
};

/** Longer than a mail server may take, shorter than the time after which a dead process's job is tried again. */
const claimedFor = '120 seconds';

/**
 * Takes a letter for sending. Nothing when it was sent already, or was never written because one with its key is
 * there; `taken` when another process is at it and may still be alive. The link that goes along with a letter to a
 * contact is made here, so that its secret never stands in the outbox.
 */
export async function claimMail(
  database: Database,
  id: string,
  publicUrl: string,
): Promise<Claimed | 'taken' | undefined> {
  return database.as(system, async (db) => {
    const [letter] = await db.$queryRaw<Taken[]>`
      UPDATE outgoing_mail
      SET attempts = attempts + 1, next_try_at = now() + ${claimedFor}::interval
      WHERE id = ${id}::uuid AND sent_at IS NULL AND next_try_at <= now()
      RETURNING id, recipient, subject, body, attempts, contact_id AS "contactId",
        unique_key AS "uniqueKey", created_at AS "createdAt"`;
    if (letter) {
      const { contactId, uniqueKey: _, createdAt: __, ...rest } = letter;
      const choicesUrl = contactId && (await newMailLink(db, contactId, publicUrl));
      return { ...rest, choicesUrl, overtaken: await isOvertaken(db, letter) };
    }
    return (await db.outgoingMail.count({ where: { id, sentAt: null } })) > 0 ? 'taken' : undefined;
  });
}

/** Letters about a visit have keys that begin with it: `visit/…/`. */
async function isOvertaken(db: Db, { recipient, uniqueKey, createdAt }: Taken): Promise<boolean> {
  const visit = /^visit\/[^/]+\//.exec(uniqueKey ?? '')?.[0];
  if (visit === undefined) return false;
  const newer = { recipient, uniqueKey: { startsWith: visit }, createdAt: { gt: createdAt } };
  return (await db.outgoingMail.count({ where: newer })) > 0;
}

/** Once it is on its way, the secret of a link has nothing more to do in the outbox. */
const withoutSecrets = (body: string) => body.replace(/(\/(?:access|figures|ready)\/)[\w-]{20,}/g, '$1…');

export async function markSent(database: Database, letter: Claimed): Promise<void> {
  const data = { sentAt: new Date(), lastError: null, body: withoutSecrets(letter.body) };
  await database.as(system, (db) => db.outgoingMail.update({ where: { id: letter.id }, data }));
}

/** The queue decides when it is tried again; until then the letter is nobody's. */
export async function markFailed(database: Database, letter: Claimed, reason: string): Promise<void> {
  const data = { lastError: reason.slice(0, 500), nextTryAt: new Date(0) };
  await database.as(system, (db) => db.outgoingMail.update({ where: { id: letter.id }, data }));
}

/** Letters without a job: those from before there was a queue, and those whose job was kept too long ago. */
export async function lettersWaiting(database: Database): Promise<string[]> {
  const rows = await database.as(system, (db) =>
    db.outgoingMail.findMany({ where: { sentAt: null, attempts: { lt: 10 } }, select: { id: true } }),
  );
  return rows.map(({ id }) => id);
}
