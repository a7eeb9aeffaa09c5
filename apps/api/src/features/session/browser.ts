import type { FastifyReply, FastifyRequest } from 'fastify';
import type { SessionKeeper } from './lucia.ts';
import type { ProvedUser } from './store.ts';

/** What ties a browser to its session: one cookie. */
export const tokenOf = (request: FastifyRequest, keeper: SessionKeeper): string | undefined =>
  request.cookies[keeper.cookieName] || undefined;

/** A new token at every sign-in; the one this browser had before is ended with it. */
export async function openInBrowser(
  keeper: SessionKeeper,
  request: FastifyRequest,
  reply: FastifyReply,
  user: ProvedUser,
  secondFactorPassed: boolean,
): Promise<void> {
  const old = tokenOf(request, keeper);
  if (old) await keeper.end(old);
  const token = await keeper.open(user, secondFactorPassed, request.headers['user-agent']);
  void reply.setCookie(keeper.cookieName, token, keeper.cookie(token));
}

export async function endInBrowser(
  keeper: SessionKeeper,
  request: FastifyRequest,
  reply: FastifyReply,
): Promise<void> {
  const token = tokenOf(request, keeper);
  if (token) await keeper.end(token);
  void reply.setCookie(keeper.cookieName, '', keeper.blankCookie());
}
