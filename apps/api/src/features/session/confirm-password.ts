import type { User } from '@countercheck/prisma';
import { system } from '../../kernel/actor.ts';
import type { Database } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { passwordMatches } from './passwords.ts';
import { countAttempt, forgiveAttempts } from './throttle.ts';

/** Asks for the password again before something that a borrowed, open browser must not be able to do. */
export async function confirmPassword(
  database: Database,
  userId: string,
  password: string,
  address: string,
): Promise<User> {
  const limits = [{ key: `password ${userId} ${address}`, attempts: 10 }];
  await countAttempt(database, limits);
  const user = await database.as(system, (db) => db.user.findUniqueOrThrow({ where: { id: userId } }));
  if (!(await passwordMatches(user.passwordHash, password))) throw new AppError('wrong-credentials');
  await forgiveAttempts(database, limits);
  return user;
}
