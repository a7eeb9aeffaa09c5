import type { AccessTokenPurpose, User } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { queueMail } from '../../kernel/records/mail.ts';
import { hashToken, newToken } from '../../kernel/secrets/tokens.ts';

const hours = { invitation: 7 * 24, password_reset: 1 } satisfies Record<AccessTokenPurpose, number>;

const letters = {
  invitation: (name: string, url: string) => ({
    subject: 'Your account with Countercheck',
    body: `Hello ${name},\n\nan account was made for you. Choose your password within seven days:\n\n${url}\n\nThe link works once. If you did not expect this, ignore it.\n`,
  }),
  password_reset: (name: string, url: string) => ({
    subject: 'Set a new password',
    body: `Hello ${name},\n\nsomebody asked for a new password for your account. Set it within an hour:\n\n${url}\n\nThe link works once. If it was not you, ignore it; nothing has changed.\n`,
  }),
} satisfies Record<AccessTokenPurpose, (name: string, url: string) => { subject: string; body: string }>;

/** Makes a one-time link; an older one of the same user stops working. The address is known only to the caller. */
export async function makeAccessLink(
  db: Db,
  publicUrl: string,
  userId: string,
  purpose: AccessTokenPurpose,
): Promise<string> {
  const token = newToken();
  await db.accessToken.deleteMany({ where: { userId, usedAt: null } });
  const expiresAt = new Date(Date.now() + hours[purpose] * 3_600_000);
  await db.accessToken.create({ data: { purpose, userId, tokenHash: hashToken(token), expiresAt } });
  return `${publicUrl}/access/${token}`;
}

export async function mailAccessLink(
  db: Db,
  publicUrl: string,
  user: Pick<User, 'id' | 'name' | 'email'>,
  purpose: AccessTokenPurpose,
): Promise<void> {
  const url = await makeAccessLink(db, publicUrl, user.id, purpose);
  const letter = letters[purpose](user.name, url);
  await queueMail(db, { recipient: user.email, about: purpose, ...letter });
}

/** The link's row and user, or why it cannot be used. */
export async function readAccessLink(db: Db, token: string) {
  const row = await db.accessToken.findUnique({
    where: { tokenHash: hashToken(token) },
    include: { user: true },
  });
  if (!row || !row.user.active) throw new AppError('link-unknown');
  if (row.usedAt) throw new AppError('link-used');
  if (row.expiresAt <= new Date()) throw new AppError('link-expired');
  return row;
}
