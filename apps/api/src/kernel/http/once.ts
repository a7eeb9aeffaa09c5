import canonicalize from 'canonicalize';
import type { FastifyRequest } from 'fastify';
import { createHash } from 'node:crypto';
import type { RouteContract } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { Actor } from '../actor.ts';
import type { Database, Db } from '../database/database.ts';
import { AppError } from '../problems/app-error.ts';

const longestKey = 200;
const keptDays = 30;

/** The header's key, with or without the quotation marks of a structured header. */
function keyOf(request: FastifyRequest): string | null {
  const header = request.headers['idempotency-key'];
  if (header === undefined) return null;
  const key = String(header).replace(/^"(.*)"$/, '$1');
  if (key === '' || key.length > longestKey)
    throw new AppError('invalid-input', `An Idempotency-Key has 1 to ${longestKey} characters.`);
  return key;
}

/** A key that would do nothing is refused: who sends one relies on it. */
export function refuseUnusedKey(contract: RouteContract, request: FastifyRequest): void {
  if (!contract.keyed && keyOf(request) !== null)
    throw new AppError('invalid-input', 'This address takes no Idempotency-Key.');
}

const sha256 = (text: string) => createHash('sha256').update(text).digest('hex');

/**
 * Does a deed once for a key, in the caller's transaction: the same key with the same content gives the first
 * answer again, with other content `same-key-other-body`, and while the first is being worked on
 * `request-in-flight`. A deed that is refused or fails leaves no trace, so that it can be asked again.
 */
export async function once<T>(
  db: Db,
  contract: RouteContract,
  request: FastifyRequest,
  deed: () => Promise<T>,
): Promise<T> {
  const key = contract.keyed ? keyOf(request) : null;
  const actor: Actor = request.actor;
  if (key === null || actor.kind !== 'user') return deed();
  const route = `${request.method} ${request.url}`;
  const bodyHash = sha256(canonicalize(request.body ?? null) ?? '');
  // Held until the transaction ends, however it ends; another one does not wait for it.
  const [lock] = await db.$queryRaw<{ free: boolean }[]>`
    SELECT pg_try_advisory_xact_lock(hashtextextended(${`${actor.id} ${key}`}, 0)) AS free`;
  if (!lock?.free) throw new AppError('request-in-flight');
  const earlier = await db.idempotencyKey.findUnique({ where: { actorId_key: { actorId: actor.id, key } } });
  if (earlier) {
    if (earlier.route !== route || earlier.bodyHash !== bodyHash) throw new AppError('same-key-other-body');
    return earlier.answer as T;
  }
  const answer = await deed();
  const kept = JSON.parse(JSON.stringify(answer ?? null)) as Prisma.InputJsonValue;
  const status = contract.status ?? 200;
  await db.idempotencyKey.create({
    data: { actorId: actor.id, key, route, bodyHash, status, answer: kept },
  });
  return answer;
}

/** Throws away keys that no phone still sends again. */
export async function sweepKeys(database: Database, system: Actor): Promise<void> {
  await database.as(
    system,
    (db) => db.$executeRaw`
      DELETE FROM idempotency_keys WHERE created_at < now() - ${keptDays} * interval '1 day'`,
  );
}
