import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { system } from '../../kernel/actor.ts';
import type { Database } from '../../kernel/database/database.ts';
import { implement } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import type { SecretBox } from '../../kernel/secrets/box.ts';
import { openInBrowser } from './browser.ts';
import type { SessionKeeper } from './lucia.ts';
import { welcome } from './sign-in.ts';
import { countAttempt, forgiveAttempts } from './throttle.ts';
import { acceptCode } from './totp.ts';

/** Six digits are quickly guessed, so the count is also kept per user, whatever the address. */
export async function confirmCode(
  database: Database,
  box: SecretBox,
  user: { id: string; totpSecret: string | null },
  code: string,
  address: string,
): Promise<void> {
  const limits = [
    { key: `second-factor ${user.id} ${address}`, attempts: 10 },
    { key: `second-factor ${user.id}`, attempts: 50 },
  ];
  await countAttempt(database, limits);
  if (!(await acceptCode(database, box, user, code))) throw new AppError('wrong-second-factor');
  await forgiveAttempts(database, limits);
}

/** The second half of signing in. */
export function secondFactor(app: FastifyInstance, keeper: SessionKeeper, box: SecretBox): void {
  implement(app, routes.session.secondFactor, async ({ body, database, request, reply }) => {
    const session = await app.actors.user(request);
    if (session?.state !== 'second-factor-pending') throw new AppError('sign-in-required');
    const user = await database.as(system, (db) =>
      db.user.findUniqueOrThrow({ where: { id: session.userId } }),
    );
    try {
      await confirmCode(database, box, user, body.code, request.ip);
    } catch (error) {
      await database.as(system, (db) =>
        record(db, { kind: 'nobody' }, request.id, {
          action: 'sign-in refused',
          recordType: 'user',
          recordId: user.id,
          after: { factor: 'second', address: request.ip },
        }),
      );
      throw error;
    }
    await openInBrowser(keeper, request, reply, user, true);
    return welcome(app, user.id, request.id);
  });
}
