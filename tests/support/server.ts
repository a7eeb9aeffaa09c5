import { startApi } from '@countercheck/host/api';
import { webDist } from '@countercheck/host/web-build';
import { freePort } from '../../apps/host/bootstrap/ports.mjs';

import { demoDatabase, freshDatabase } from './database.ts';
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

/** The whole service as it runs for people: its own database, its own process, the built web app. */
export async function startServer({ demo = false, env = {} }: ServerOptions = {}): Promise<TestServer> {
  const database = await (demo ? demoDatabase() : freshDatabase());
  try {
    const port = await freePort();
    const url = `http://127.0.0.1:${port}`;
    const api = await startApi({
      port,
      host: '127.0.0.1',
      publicUrl: url,
      databaseUrl: database.appUrl,
      webDist,
      env: { LOG_LEVEL: 'warn', RATE_LIMIT: '1000000', SECRET_KEY: secretKey, ...env },
    });
    return {
      url,
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
