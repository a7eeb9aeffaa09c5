import { buildApp } from './app.ts';
import { readConfig } from './kernel/config.ts';

const app = await buildApp(readConfig());

let stopping = false;
for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.on(signal, () => {
    if (stopping) return;
    stopping = true;
    app.log.info({ signal }, 'stopping');
    void app.close().then(() => process.exit(0));
  });
}

try {
  await app.listen({ port: app.config.PORT, host: app.config.HOST });
} catch (error) {
  app.log.fatal({ err: error }, error instanceof Error ? error.message : 'cannot start');
  process.exit(1);
}
