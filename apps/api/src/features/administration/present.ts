import type { Prisma } from '@countercheck/prisma';
import type { User } from '@countercheck/contracts';

/** What a user's row is read with: never the hash or the secret, only whether there is one. */
export const withSessions = () => {
  const now = new Date();
  const open = { expiresAt: { gt: now }, absoluteExpiresAt: { gt: now }, secondFactorPassed: true };
  return { builder: true, _count: { select: { sessions: { where: open } } } } satisfies Prisma.UserInclude;
};
export type UserRow = Prisma.UserGetPayload<{ include: ReturnType<typeof withSessions> }>;

export function presentUser(row: UserRow): User {
  const { id, name, email, role, active } = row;
  return {
    ...{ id, name, email, role, active },
    builder: row.builder && { id: row.builder.id, name: row.builder.name },
    invited: row.passwordHash === null,
    secondFactor: row.totpConfirmedAt !== null,
    lastSignInAt: row.lastSignInAt?.toISOString() ?? null,
    openSessions: row._count.sessions,
  };
}
