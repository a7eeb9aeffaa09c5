import { Secret, TOTP } from 'otpauth';
import type { Database } from '../../kernel/database/database.ts';
import { system } from '../../kernel/actor.ts';
import type { SecretBox } from '../../kernel/secrets/box.ts';

const period = 30;

export const newSecret = (): string => new Secret({ size: 20 }).base32;

const authenticator = (secret: string, account: string) =>
  new TOTP({ issuer: 'Countercheck', label: account, secret: Secret.fromBase32(secret), period, digits: 6 });

export const enrolmentUri = (secret: string, email: string): string =>
  authenticator(secret, email).toString();

/** The time step a code belongs to: now, or one to either side for clocks that are a little off. */
function stepOf(secret: string, code: string, now = Date.now()): number | undefined {
  const delta = authenticator(secret, '').validate({ token: code, timestamp: now, window: 1 });
  return delta === null ? undefined : Math.floor(now / 1000 / period) + delta;
}

/** Accepts a code once: of two requests with the same code, also at the same moment, one succeeds. */
export async function acceptCode(
  database: Database,
  box: SecretBox,
  user: { id: string; totpSecret: string | null },
  code: string,
): Promise<boolean> {
  if (user.totpSecret === null) return false;
  const step = stepOf(box.open(user.totpSecret, user.id), code);
  if (step === undefined) return false;
  const { count } = await database.as(system, (db) =>
    db.user.updateMany({
      where: { id: user.id, OR: [{ totpLastStep: null }, { totpLastStep: { lt: step } }] },
      data: { totpLastStep: step },
    }),
  );
  return count === 1;
}
