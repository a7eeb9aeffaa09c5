import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { withClient } from './database.ts';
import { root } from './places.ts';
import { mustRun } from './program.ts';

const loader = join(root, 'apps', 'api', 'src', 'commands', 'load-demo.ts');
const signInsFile = join(root, 'prisma', 'demo', 'sign-ins.ts');

export interface SignIn {
  role: string;
  email: string;
  password: string;
  name: string;
}

/** Loads the demo company into an empty database; the loader itself leaves any other database alone. */
export async function loadDemo(ownerUrl: string, secretKey: string): Promise<void> {
  await mustRun(process.execPath, ['--import', 'tsx', loader], {
    cwd: root,
    env: { ...process.env, DATABASE_URL: ownerUrl, SECRET_KEY: secretKey },
  });
}

export const hasDemo = (): boolean => existsSync(loader);

/** The demo's sign-ins that this database really has: a company of its own was never given them. */
export async function demoSignIns(ownerUrl: string): Promise<SignIn[]> {
  const { demoSignIns: signIns } = (await import(pathToFileURL(signInsFile).href)) as {
    demoSignIns: SignIn[];
  };
  const { rows } = await withClient(ownerUrl, (client) =>
    client.query<{ email: string }>('SELECT email FROM users WHERE email = ANY($1)', [
      signIns.map(({ email }) => email),
    ]),
  );
  return signIns.filter(({ email }) => rows.some((row) => row.email === email));
}

export function table(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows
    .map((row) => `  ${row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join('   ')}`.trimEnd())
    .join('\n');
}
