import type { Pool, PoolClient } from 'pg';

export interface Statement {
  text: string;
  values: unknown[];
}

type Query = (...args: unknown[]) => unknown;

/** Notes every statement that goes through a pool, so that the same SQL can be run without anything around it. */
export function recordSql(pool: Pool): { take(): Statement[] } {
  let statements: Statement[] = [];
  const watch = (client: PoolClient) => {
    const query = client.query.bind(client) as Query;
    (client as unknown as { query: Query }).query = (...args) => {
      const [first, second] = args;
      if (typeof first === 'string')
        statements.push({ text: first, values: Array.isArray(second) ? second : [] });
      else if (first && typeof first === 'object' && 'text' in first) {
        const { text, values } = first as { text: string; values?: unknown[] };
        statements.push({ text, values: values ?? (Array.isArray(second) ? second : []) });
      }
      return query(...args);
    };
  };
  pool.on('connect', watch);
  return {
    take() {
      const taken = statements;
      statements = [];
      return taken;
    },
  };
}

/** The same statements through one bare connection, one after the other. */
export async function runBare(client: PoolClient, statements: Statement[]): Promise<void> {
  for (const { text, values } of statements) await client.query(text, values);
}
