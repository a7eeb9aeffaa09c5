import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import multipart from '@fastify/multipart';
import rateLimit from '@fastify/rate-limit';
import fastify, { LogController, type FastifyInstance } from 'fastify';
import { randomUUID } from 'node:crypto';
import { features } from './features/index.ts';
import type { Config } from './kernel/config.ts';
import { openDatabase } from './kernel/database/database.ts';
import { speakContracts } from './kernel/http/compilers.ts';
import { describeApi } from './kernel/http/describe.ts';
import { logRequests } from './kernel/http/log.ts';
import { serveWeb } from './kernel/http/web.ts';
import { AppError } from './kernel/problems/app-error.ts';
import { answerProblems } from './kernel/problems/handler.ts';

const largestUpload = 15 * 1024 * 1024;

/** Builds the service without listening, for the process and for tests alike. */
export async function buildApp(config: Config): Promise<FastifyInstance> {
  const app = fastify({
    logger: { level: config.LOG_LEVEL, redact: ['req.headers.cookie', 'req.headers.authorization'] },
    genReqId: () => randomUUID(),
    // One line a request is written when it is answered; see logRequests.
    logController: new LogController({ disableRequestLogging: true }),
    // What the nearest proxies wrote; what a visitor wrote before them is not believed.
    trustProxy: config.TRUST_PROXY > 0 && ((_address, hop) => hop < config.TRUST_PROXY),
    bodyLimit: 6 * 1024 * 1024,
    routerOptions: { maxParamLength: 250 },
    // A start waits for the database, the queue and the rule sets; a busy machine takes its time over them.
    pluginTimeout: 60_000,
  });

  speakContracts(app);
  answerProblems(app);
  logRequests(app);

  const database = openDatabase(config.DATABASE_URL, config.DATABASE_POOL, (error) =>
    app.log.error({ err: error }, 'database connection lost'),
  );
  app.decorate('database', database);
  app.decorate('config', config);
  app.decorateRequest('actor', null as never);
  app.addHook('onClose', async () => database.close());
  app.addHook('onRequest', async (request, reply) => {
    void reply.header('x-request-id', request.id);
    // A page of another site cannot set this header, so it cannot act with somebody's cookie. Whatever the address: it
    // can be written in many ways (/%61pi/…) that lead to the same route.
    if (
      request.method !== 'GET' &&
      request.method !== 'HEAD' &&
      request.headers['x-requested-with'] !== 'countercheck'
    ) {
      throw new AppError(
        'not-allowed',
        'Requests that change something carry the header x-requested-with: countercheck.',
      );
    }
  });

  await app.register(helmet, {
    contentSecurityPolicy: {
      directives: {
        defaultSrc: ["'self'"],
        imgSrc: ["'self'", 'data:', 'blob:'],
        styleSrc: ["'self'", "'unsafe-inline'"],
        scriptSrc: ["'self'"],
        connectSrc: ["'self'"],
        upgradeInsecureRequests: config.COOKIE_SECURE ? [] : null,
      },
    },
    strictTransportSecurity: config.COOKIE_SECURE,
  });
  await app.register(cookie);
  await app.register(rateLimit, {
    global: false,
    max: config.RATE_LIMIT,
    timeWindow: '1 minute',
    // By the route that answers, not by how its address was written.
    allowList: ({ routeOptions: { url } }) => !url?.startsWith('/api/') || url === '/api/health',
  });
  // Before anybody is admitted: a route's own hooks come later, and would leave out whoever they refuse.
  app.addHook('onRequest', app.rateLimit());
  await app.register(multipart, { limits: { fileSize: largestUpload, files: 1, fields: 20 } });
  await describeApi(app);
  await app.register(features);
  await serveWeb(app, config.WEB_DIST);
  return app;
}

declare module 'fastify' {
  interface FastifyInstance {
    config: Config;
  }
}
