import { startApi, type Api } from '@countercheck/host/api';
import { webDist } from '@countercheck/host/web-build';
import { freePort } from '../../apps/host/bootstrap/ports.mjs';
import { demoDatabase, freshDatabase, type FreshDatabase } from './database.ts';
import { secretKey } from './secret-key.ts';

export interface TestServer {
  url: string;
  ownerUrl: string;
  appUrl: string;
  stop(): Promise<void>;
}

interface ServerOptions {
  /** Start with the demo company; otherwise the database is empty. */
  demo?: boolean;
  env?: Record<string, string>;
}

/** One process of the service on a database that the caller looks after. */
export async function startProcess(database: FreshDatabase, env: Record<string, string> = {}): Promise<Api> {
  const port = await freePort();
  return startApi({
    port,
    host: '127.0.0.1',
    publicUrl: `http://127.0.0.1:${port}`,
    databaseUrl: database.appUrl,
    // Somebody else's build would otherwise change the pages under a run that is going on.
    webDist: process.env['WEB_DIST'] ?? webDist,
    env: { LOG_LEVEL: 'warn', RATE_LIMIT: '1000000', SECRET_KEY: secretKey, ...env },
  });
}

/** The whole service as it runs for people: its own database, its own process, the built web app. */
export async function startServer({ demo = false, env = {} }: ServerOptions = {}): Promise<TestServer> {
  const database = await (demo ? demoDatabase() : freshDatabase());
  try {
    const api = await startProcess(database, env);
    return {
      url: api.url,
      ownerUrl: database.ownerUrl,
      appUrl: database.appUrl,
      async stop() {
        await api.stop();
        await database.drop();
      },
    };
  } catch (error) {
    await database.drop();
    throw error;
  }
}
