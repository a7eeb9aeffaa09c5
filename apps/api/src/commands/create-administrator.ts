import { parseArgs } from 'node:util';
import { emailSchema } from '@countercheck/contracts';
import { makeAccessLink } from '../features/session/index.ts';
import { system } from '../kernel/actor.ts';
import { readConfig } from '../kernel/config.ts';
import { openDatabase, type Database } from '../kernel/database/database.ts';
import { record } from '../kernel/records/events.ts';

const usage = 'create-administrator --email you@company.example --name "Your Name"';

/** The way in where nobody is in yet, or the last administrator has lost everything. */
export function createAdministrator(
  database: Database,
  publicUrl: string,
  { email, name }: { email: string; name: string },
): Promise<string> {
  return database.as(system, async (db) => {
    const known = await db.user.findUnique({ where: { email } });
    if (known && (known.role !== 'administrator' || !known.active))
      throw new Error(`${email} belongs to a user who is not an active administrator.`);
    const user = known ?? (await db.user.create({ data: { email, name, role: 'administrator' } }));
    await record(db, { kind: 'system', name: 'create-administrator' }, null, {
      action: known ? 'password reset asked' : 'user invited',
      recordType: 'user',
      recordId: user.id,
      after: { email, name: user.name, role: user.role },
    });
    return makeAccessLink(db, publicUrl, user.id, 'invitation');
  });
}

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { email: { type: 'string' }, name: { type: 'string' } } });
  const email = emailSchema.safeParse(values.email);
  const name = values.name?.trim();
  if (!email.success || !name) throw new Error(`Usage: ${usage}`);
  const config = readConfig();
  const database = openDatabase(config.DATABASE_URL, 2, () => undefined);
  try {
    console.log(await createAdministrator(database, config.publicUrl, { email: email.data, name }));
    console.error('Open this address within seven days and choose a password. It works once.');
  } finally {
    await database.close();
  }
}

if (process.argv[1]?.endsWith('create-administrator.ts')) {
  await main().catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  });
}
