import type { Role } from '@countercheck/contracts';
import type { User } from '@countercheck/prisma';
import { system } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { hashToken } from '../../kernel/secrets/tokens.ts';

export const lifetimes = { idleHours: 12, absoluteDays: 7, pendingMinutes: 10 };

export interface SessionUser {
  id: string;
  name: string;
  role: Role;
  builderId: string | null;
  mustSetUpSecondFactor: boolean;
}
export interface StoredSession {
  userId: string;
  expiresAt: Date;
  secondFactorPassed: boolean;
}

/** The password and the authenticator that somebody has just shown to be his. */
export type Proved = Pick<User, 'passwordHash' | 'totpConfirmedAt'>;
export type ProvedUser = Proved & Pick<User, 'id'>;

interface Row extends SessionUser, StoredSession {}

/** Sessions as the database keeps them: by the hash of their token, never by the token. */
export function sessionStore(database: Database) {
  const work = <T>(deed: (db: Db) => Promise<T>) => database.as(system, deed);
  return {
    /** The session and its user in one query; nothing for a user who was deactivated. */
    find: async (token: string): Promise<Row | undefined> => {
      const rows = await work(
        (db) => db.$queryRaw<Row[]>`
          SELECT u.id, u.name, u.role::text AS role, u.builder_id AS "builderId", s.user_id AS "userId",
            s.expires_at AS "expiresAt", s.second_factor_passed AS "secondFactorPassed",
            u.totp_confirmed_at IS NULL AND u.role IN ('quality', 'administrator')
              AND coalesce((SELECT require_second_factor FROM company WHERE id = 1), false)
              AS "mustSetUpSecondFactor"
          FROM sessions s JOIN users u ON u.id = s.user_id
          WHERE s.id = ${hashToken(token)} AND u.active AND s.absolute_expires_at > now()`,
      );
      return rows[0];
    },
    /** `proved` is what the sign-in rested on; when it is no longer so, no session comes of it. */
    put: (token: string, session: StoredSession, userAgent: string | null, proved: Proved | null = null) =>
      work(async (db) => {
        if (proved) await refuseOutdated(db, session.userId, proved);
        const now = Date.now();
        const id = hashToken(token);
        const pending = new Date(now + lifetimes.pendingMinutes * 60_000);
        const { userId, secondFactorPassed } = session;
        await db.session.create({
          data: {
            ...{ id, userId, secondFactorPassed, userAgent },
            expiresAt: secondFactorPassed ? session.expiresAt : pending,
            absoluteExpiresAt: new Date(now + lifetimes.absoluteDays * 86_400_000),
          },
        });
      }),
    /** One that still waits for the second factor is not prolonged by being used. */
    prolong: (token: string, expiresAt: Date) =>
      work(async (db) => {
        await db.session.updateMany({
          where: { id: hashToken(token), secondFactorPassed: true },
          data: { expiresAt },
        });
      }),
    end: (token: string) =>
      work(async (db) => {
        await db.session.deleteMany({ where: { id: hashToken(token) } });
      }),
    endAllOf: (userId: string) => work((db) => endSessionsOf(db, userId)),
    sweep: () =>
      work(async (db) => {
        const now = new Date();
        await db.session.deleteMany({
          where: { OR: [{ expiresAt: { lt: now } }, { absoluteExpiresAt: { lt: now } }] },
        });
      }),
  };
}

/** The row is held, so that whoever changes it ends this session with the others, or is waited for. */
async function refuseOutdated(db: Db, userId: string, proved: Proved): Promise<void> {
  await db.$queryRaw`SELECT id FROM users WHERE id = ${userId}::uuid FOR SHARE`;
  const now = await db.user.findUniqueOrThrow({ where: { id: userId } });
  const same =
    now.active &&
    now.passwordHash === proved.passwordHash &&
    now.totpConfirmedAt?.getTime() === proved.totpConfirmedAt?.getTime();
  if (!same) throw new AppError('wrong-credentials');
}

export type SessionStore = ReturnType<typeof sessionStore>;

/** Ends the sessions of a user, in the transaction of whatever made that necessary. */
export async function endSessionsOf(db: Db, userId: string, exceptToken?: string): Promise<void> {
  const kept = exceptToken === undefined ? {} : { id: { not: hashToken(exceptToken) } };
  await db.session.deleteMany({ where: { userId, ...kept } });
}
