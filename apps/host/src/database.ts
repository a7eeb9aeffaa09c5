import pg from 'pg';

/** The role the API signs in with: it owns nothing and row level security binds it. Migrations grant to it. */
export const appRole = 'countercheck_app';
export const ownerRole = 'countercheck_owner';

export const utc = '-c timezone=UTC';

export function urlFor(
  base: string,
  changes: { user?: string; password?: string; database?: string },
): string {
  const url = new URL(base);
  if (changes.user !== undefined) url.username = encodeURIComponent(changes.user);
  if (changes.password !== undefined) url.password = encodeURIComponent(changes.password);
  if (changes.database !== undefined) url.pathname = `/${encodeURIComponent(changes.database)}`;
  return url.href;
}

export async function withClient<T>(url: string, work: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: url, options: utc, connectionTimeoutMillis: 10_000 });
  // A connection lost between queries is reported by the next query; unheard, the event would end the process.
  client.on('error', () => undefined);
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}

/** Creates the role or gives it this password; it can then sign in and nothing more until it is granted. */
export async function ensureRole(client: pg.Client, name: string, password: string): Promise<void> {
  const role = client.escapeIdentifier(name);
  const { rowCount } = await client.query('SELECT 1 FROM pg_roles WHERE rolname = $1', [name]);
  const verb = rowCount ? 'ALTER' : 'CREATE';
  await client.query(
    `${verb} ROLE ${role} LOGIN NOSUPERUSER NOCREATEROLE NOCREATEDB PASSWORD ${client.escapeLiteral(password)}`,
  );
}

export async function ensureDatabase(client: pg.Client, name: string, owner: string): Promise<void> {
  const { rowCount } = await client.query('SELECT 1 FROM pg_database WHERE datname = $1', [name]);
  if (rowCount) return;
  const [database, role] = [client.escapeIdentifier(name), client.escapeIdentifier(owner)];
  await client.query(`CREATE DATABASE ${database} OWNER ${role}`);
}
