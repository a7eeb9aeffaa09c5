import type { FastifyRequest } from 'fastify';
import { system, type InstallerActor } from '../../kernel/actor.ts';
import type { Database } from '../../kernel/database/database.ts';
import type { ActorSource, SignedIn } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { hashToken } from '../../kernel/secrets/tokens.ts';
import { tokenOf } from './browser.ts';
import type { SessionKeeper } from './lucia.ts';

async function signedIn(keeper: SessionKeeper, request: FastifyRequest): Promise<SignedIn | undefined> {
  const token = tokenOf(request, keeper);
  const session = token === undefined ? undefined : await keeper.read(token);
  if (!session) return undefined;
  const { mustSetUpSecondFactor, id, name, role, builderId } = session.user;
  if (!session.secondFactorPassed) return { state: 'second-factor-pending', userId: id };
  return { state: 'signed-in', actor: { kind: 'user', id, name, role, builderId }, mustSetUpSecondFactor };
}

/** Whoever holds an installer's link may speak for that installer, about that one house. */
async function linkHolder(database: Database, token: string): Promise<InstallerActor> {
  const link = await database.as(system, async (db) => {
    const row = await db.installerLink.findUnique({
      where: { tokenHash: hashToken(token) },
      include: { installer: true },
    });
    const open = row && !row.revokedAt && row.expiresAt > new Date() && row.installer.active;
    if (open) await db.installerLink.update({ where: { id: row.id }, data: { lastUsedAt: new Date() } });
    return row;
  });
  if (!link) throw new AppError('link-unknown');
  if (link.revokedAt || !link.installer.active) throw new AppError('link-revoked');
  if (link.expiresAt <= new Date()) throw new AppError('link-expired');
  const { id, name } = link.installer;
  return { kind: 'installer', id, name, houseId: link.houseId, linkId: link.id };
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
    link: (token) => linkHolder(database, token),
  };
}
