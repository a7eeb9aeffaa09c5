import { randomUUID } from 'node:crypto';
import type { Db } from '../database/database.ts';
import { queueJobs } from '../queue/put.ts';

export interface Letter {
  recipient: string;
  subject: string;
  body: string;
  /** what it is about, for the administrator's list: `visit`, `invitation`, … */
  about: string;
  /** a builder's contact without an account: when it is sent, a link to what it wants to hear of goes along */
  contactId?: string;
  /** a second letter with the same key is not written: the deed that causes it may be tried again */
  uniqueKey?: string;
}

/** The queue that delivers the outbox; a job carries the id of its letter and has the same id. */
export const mailQueue = 'mail';

/**
 * Puts mail in the outbox in the transaction that causes it, with the job that delivers it: either both are there
 * after commit, or neither.
 */
export async function queueMail(db: Db, ...letters: Letter[]): Promise<void> {
  if (letters.length === 0) return;
  // Due at once by the database's clock, which decides, also where this process is ahead of it.
  const rows = letters.map((letter) => ({ id: randomUUID(), nextTryAt: new Date(0), ...letter }));
  await db.outgoingMail.createMany({ data: rows, skipDuplicates: true });
  await queueJobs(
    db,
    mailQueue,
    rows.map(({ id }) => id),
  );
}
