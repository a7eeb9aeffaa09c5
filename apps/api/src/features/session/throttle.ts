import { system } from '../../kernel/actor.ts';
import type { Database } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';

export interface Limit {
  key: string;
  attempts: number;
}

const windowMinutes = 15;

/** Per account and address, so that a stranger elsewhere cannot lock anybody out; and per address. */
export const signInLimits = (email: string, address: string): Limit[] => [
  { key: `sign-in ${email} ${address}`, attempts: 10 },
  { key: `address ${address}`, attempts: 100 },
];

/**
 * Counts an attempt before it is made, so that many at once cannot slip past the limit together, and refuses
 * it when one limit is used up. The count is in the database: every API process sees the same one.
 */
export async function countAttempt(database: Database, limits: Limit[]): Promise<void> {
  const wait = await database.as(system, async (db) => {
    const since = new Date(Date.now() - windowMinutes * 60_000);
    for (const { key, attempts } of limits) {
      await db.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${key}, 7))`;
      const newest = await db.signInAttempt.findMany({
        where: { key, at: { gt: since } },
        orderBy: { at: 'desc' },
        take: attempts,
      });
      const oldest = newest[attempts - 1];
      if (oldest) return Math.max(1, Math.ceil((oldest.at.getTime() - since.getTime()) / 1000));
    }
    await db.signInAttempt.createMany({ data: limits.map(({ key }) => ({ key })) });
    return undefined;
  });
  if (wait !== undefined) throw new AppError('too-many-requests', undefined, undefined, wait);
}

/** After success: the account's count begins anew, and the address gets back the attempt it did not misuse. */
export async function forgiveAttempts(database: Database, [own, ...wider]: Limit[]): Promise<void> {
  await database.as(system, async (db) => {
    if (own) await db.signInAttempt.deleteMany({ where: { key: own.key } });
    for (const { key } of wider) {
      const last = await db.signInAttempt.findFirst({ where: { key }, orderBy: { at: 'desc' } });
      if (last) await db.signInAttempt.deleteMany({ where: { id: last.id } });
    }
  });
}

export async function sweepAttempts(database: Database): Promise<void> {
  const before = new Date(Date.now() - 24 * 3_600_000);
  await database.as(system, (db) => db.signInAttempt.deleteMany({ where: { at: { lt: before } } }));
}
