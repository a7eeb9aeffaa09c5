import type { FastifyRequest } from 'fastify';
import type { Database } from '../../kernel/database/database.ts';
import type { ActorSource, SignedIn } from '../../kernel/http/implement.ts';
import { tokenOf } from './browser.ts';
import { linkHolders } from './link-holders.ts';
import type { SessionKeeper } from './lucia.ts';

async function signedIn(keeper: SessionKeeper, request: FastifyRequest): Promise<SignedIn | undefined> {
  const token = tokenOf(request, keeper);
  const session = token === undefined ? undefined : await keeper.read(token);
  if (!session) return undefined;
  const { mustSetUpSecondFactor, id, name, role, builderId } = session.user;
  if (!session.secondFactorPassed) return { state: 'second-factor-pending', userId: id };
  return { state: 'signed-in', actor: { kind: 'user', id, name, role, builderId }, mustSetUpSecondFactor };
}

/** Works out who is asking, once a request. */
export function actorSource(database: Database, keeper: SessionKeeper): ActorSource {
  const known = new WeakMap<FastifyRequest, Promise<SignedIn | undefined>>();
  return {
    user(request) {
      const answer = known.get(request) ?? signedIn(keeper, request);
      known.set(request, answer);
      return answer;
    },
    link: (kind, token) => linkHolders[kind](database, token),
  };
}
