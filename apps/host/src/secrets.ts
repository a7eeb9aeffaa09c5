import { randomBytes } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { dataFolder } from './places.ts';

const file = join(dataFolder, 'secrets.json');

export interface Secrets {
  superuser: string;
  owner: string;
  app: string;
  /** Encrypts the authenticators' secrets in the database; without it they must be set up again. */
  key: string;
  databasePort?: number;
}

/** Made up once for this folder. Whoever deletes the file has to delete the data directory with it. */
export function readSecrets(): Secrets {
  const kept = existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as Partial<Secrets>) : {};
  const secret = () => randomBytes(24).toString('base64url');
  // A file from before a secret was needed gets that one added.
  const made = { superuser: secret(), owner: secret(), app: secret(), key: secret() + secret() };
  const secrets: Secrets = { ...made, ...kept };
  if (Object.keys(made).some((name) => !(name in kept))) writeSecrets(secrets);
  return secrets;
}

export function writeSecrets(secrets: Secrets): void {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, `${JSON.stringify(secrets, null, 2)}\n`, { mode: 0o600 });
  chmodSync(file, 0o600);
}
