import fp from 'fastify-plugin';
import { secretBox } from '../../kernel/secrets/box.ts';
import { actorSource } from './actors.ts';
import { ownAuthenticator } from './authenticator.ts';
import { sweepRegularly } from './housekeeping.ts';
import { sessionKeeper } from './lucia.ts';
import { ownAccount } from './own-account.ts';
import { secondFactor } from './second-factor.ts';
import { setPassword } from './set-password.ts';
import { signIn } from './sign-in.ts';
import { sessionStore } from './store.ts';

export { hashPassword } from './passwords.ts';
export { mailAccessLink, makeAccessLink } from './access-links.ts';
export { endSessionsOf } from './store.ts';

/** Signing in and who is asking. Not encapsulated: every other feature's routes ask `app.actors`. */
export const sessionFeature = fp(async (app) => {
  const keeper = sessionKeeper(sessionStore(app.database), app.config.COOKIE_SECURE);
  const box = secretBox(app.config.SECRET_KEY, 'authenticator secrets');
  app.decorate('actors', actorSource(app.database, keeper));
  signIn(app, keeper);
  secondFactor(app, keeper, box);
  ownAccount(app, keeper);
  ownAuthenticator(app, keeper, box);
  setPassword(app);
  sweepRegularly(app, keeper);
});
