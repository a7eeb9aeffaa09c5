import type { Db } from '../database/database.ts';

export interface Letter {
  recipient: string;
  subject: string;
  body: string;
  /** what it is about, for the administrator's list: `visit`, `invitation`, … */
  about: string;
}

/** Puts mail in the outbox in the transaction that causes it; delivery follows after commit. */
export async function queueMail(db: Db, ...letters: Letter[]): Promise<void> {
  if (letters.length > 0) await db.outgoingMail.createMany({ data: letters });
}
