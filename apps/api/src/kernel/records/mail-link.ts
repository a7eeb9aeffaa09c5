import type { Db } from '../database/database.ts';
import { hashToken, newToken } from '../secrets/tokens.ts';

/** A new address at which a contact says which mail it wants. Only the hash of its token is stored. */
export async function newMailLink(db: Db, contactId: string, publicUrl: string): Promise<string> {
  const token = newToken();
  await db.contactMailLink.create({ data: { contactId, tokenHash: hashToken(token) } });
  return `${publicUrl}/mail-choices/${token}`;
}
