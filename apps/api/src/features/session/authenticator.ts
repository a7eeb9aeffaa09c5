import { toString as drawQr } from 'qrcode';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { system, type UserActor } from '../../kernel/actor.ts';
import type { Database } from '../../kernel/database/database.ts';
import { implement } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import type { SecretBox } from '../../kernel/secrets/box.ts';
import { tokenOf } from './browser.ts';
import { confirmPassword } from './confirm-password.ts';
import type { SessionKeeper } from './lucia.ts';
import { presentMe } from './present.ts';
import { confirmCode } from './second-factor.ts';
import { endSessionsOf } from './store.ts';
import { enrolmentUri, newSecret } from './totp.ts';

const without = { totpSecret: null, totpConfirmedAt: null, totpLastStep: null };

const ownUser = (database: Database, actor: UserActor) =>
  database.as(system, (db) => db.user.findUniqueOrThrow({ where: { id: actor.id } }));

/** Setting up and giving up one's own authenticator. */
export function ownAuthenticator(app: FastifyInstance, keeper: SessionKeeper, box: SecretBox): void {
  implement(app, routes.session.beginSecondFactor, async ({ actor, body, database, request }) => {
    const user = await confirmPassword(database, actor.id, body.password, request.ip);
    // An authenticator that works is not replaced by one that was never tried; it is removed first.
    if (user.totpConfirmedAt) throw new AppError('conflict', 'Remove the present authenticator first.');
    const secret = newSecret();
    const uri = enrolmentUri(secret, user.email);
    const data = { totpSecret: box.seal(secret, user.id), totpLastStep: null };
    await database.as(system, (db) => db.user.update({ where: { id: user.id }, data }));
    return { secret, uri, qrSvg: await drawQr(uri, { type: 'svg', margin: 1 }) };
  });

  implement(app, routes.session.confirmSecondFactor, async ({ actor, body, database, request }) => {
    const user = await ownUser(database, actor);
    if (user.totpConfirmedAt) throw new AppError('conflict', 'The authenticator is set up already.');
    await confirmCode(database, box, user, body.code, request.ip);
    return database.as(system, async (db) => {
      await db.user.update({ where: { id: user.id }, data: { totpConfirmedAt: new Date() } });
      // The others were opened with the password alone.
      await endSessionsOf(db, user.id, tokenOf(request, keeper));
      await record(db, actor, request.id, {
        action: 'second factor set',
        recordType: 'user',
        recordId: user.id,
      });
      return presentMe(db, user.id);
    });
  });

  implement(app, routes.session.removeSecondFactor, async ({ actor, body, database, request }) => {
    const user = await confirmPassword(database, actor.id, body.password, request.ip);
    const { secondFactor } = await database.as(system, (db) => presentMe(db, user.id));
    if (secondFactor.required)
      throw new AppError('not-allowed', 'Your company requires a second factor for this role.');
    await confirmCode(database, box, user, body.code, request.ip);
    return database.as(system, async (db) => {
      await db.user.update({ where: { id: user.id }, data: without });
      await record(db, actor, request.id, {
        action: 'second factor removed',
        recordType: 'user',
        recordId: user.id,
      });
      return presentMe(db, user.id);
    });
  });
}
