import { Lucia, TimeSpan, type Adapter } from 'lucia';
import { newToken } from '../../kernel/secrets/tokens.ts';
import { lifetimes, type Proved, type ProvedUser, type SessionStore, type SessionUser } from './store.ts';

interface SessionAttributes {
  secondFactorPassed: boolean;
  userAgent: string | null;
  proved: Proved | null;
}

declare module 'lucia' {
  interface Register {
    Lucia: Lucia<Pick<SessionAttributes, 'secondFactorPassed'>, { account: SessionUser }>;
    UserId: string;
    DatabaseSessionAttributes: SessionAttributes;
    DatabaseUserAttributes: { account: SessionUser };
  }
}

/** The library speaks of tokens; the store turns each into its hash before it meets the database. */
function adapter(store: SessionStore): Adapter {
  return {
    async getSessionAndUser(token) {
      const row = await store.find(token);
      if (!row) return [null, null];
      const { userId, expiresAt, secondFactorPassed, ...account } = row;
      const attributes = { secondFactorPassed, userAgent: null, proved: null };
      return [
        { id: token, userId, expiresAt, attributes },
        { id: userId, attributes: { account } },
      ];
    },
    setSession: ({ id, userId, expiresAt, attributes: { secondFactorPassed, userAgent, proved } }) =>
      store.put(id, { userId, expiresAt, secondFactorPassed }, userAgent, proved),
    updateSessionExpiration: store.prolong,
    deleteSession: store.end,
    deleteUserSessions: store.endAllOf,
    deleteExpiredSessions: store.sweep,
    // A session's token is known to its browser only, so there is nothing to list.
    getUserSessions: () => Promise.resolve([]),
  };
}

/**
 * All that the service knows of the session library. It decides what a session is, when it is prolonged
 * and how its cookie looks; replacing it means replacing this file.
 */
export function sessionKeeper(store: SessionStore, secure: boolean) {
  const lucia = new Lucia(adapter(store), {
    sessionExpiresIn: new TimeSpan(lifetimes.idleHours, 'h'),
    // The server decides when a session is over; the cookie only has to last as long.
    sessionCookie: { name: 'countercheck_session', expires: false, attributes: { secure, sameSite: 'lax' } },
    getSessionAttributes: ({ secondFactorPassed }) => ({ secondFactorPassed }),
    getUserAttributes: ({ account }) => ({ account }),
  });
  return {
    cookieName: lucia.sessionCookieName,
    async open(
      user: ProvedUser,
      secondFactorPassed: boolean,
      userAgent: string | undefined,
    ): Promise<string> {
      const { id, passwordHash, totpConfirmedAt } = user;
      const proved = { passwordHash, totpConfirmedAt };
      const attributes = { secondFactorPassed, userAgent: userAgent?.slice(0, 300) ?? null, proved };
      return (await lucia.createSession(id, attributes, { sessionId: newToken() })).id;
    },
    async read(token: string): Promise<{ user: SessionUser; secondFactorPassed: boolean } | undefined> {
      const { session, user } = await lucia.validateSession(token);
      return session ? { user: user.account, secondFactorPassed: session.secondFactorPassed } : undefined;
    },
    end: (token: string) => lucia.invalidateSession(token),
    sweep: () => lucia.deleteExpiredSessions(),
    cookie: (token: string) => ({
      ...lucia.createSessionCookie(token).attributes,
      maxAge: lifetimes.absoluteDays * 86_400,
    }),
    blankCookie: () => lucia.createBlankSessionCookie().attributes,
  };
}

export type SessionKeeper = ReturnType<typeof sessionKeeper>;
