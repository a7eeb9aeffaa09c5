import { hash, verify } from '@node-rs/argon2';
import { newToken } from '../../kernel/secrets/tokens.ts';

/** Argon2id as the OWASP cheat sheet on password storage has it: 19 MiB, two passes, one lane (from memory). */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1, outputLen: 32 };

export const hashPassword = (password: string): Promise<string> => hash(password.normalize('NFKC'), cost);

let nobodysHash: Promise<string> | undefined;

/**
 * Whether the password is the one hashed. Without a hash (no such user, not yet accepted) the same work is
 * done in vain, so that the time taken does not tell who has an account.
 */
export async function passwordMatches(stored: string | null | undefined, password: string): Promise<boolean> {
  const known = stored ?? (await (nobodysHash ??= hashPassword(newToken())));
  const matches = await verify(known, password.normalize('NFKC'));
  return matches && typeof stored === 'string';
}
