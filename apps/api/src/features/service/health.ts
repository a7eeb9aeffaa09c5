import type { FastifyInstance } from 'fastify';
import { createRequire } from 'node:module';
import { healthSchema, routes } from '@countercheck/contracts';

const { version } = createRequire(import.meta.url)('../../../package.json') as { version: string };
const patienceMs = 2_000;

async function askDatabase(app: FastifyInstance) {
  const from = performance.now();
  const late = new Promise<never>((_, reject) => {
    setTimeout(() => reject(new Error('too late')), patienceMs).unref();
  });
  try {
    const question = app.database.pool.query<{ applied: number }>(
      'SELECT count(*)::int AS applied FROM _prisma_migrations WHERE finished_at IS NOT NULL',
    );
    const { rows } = await Promise.race([question, late]);
    const latencyMs = Math.round((performance.now() - from) * 10) / 10;
    return { ok: true, latencyMs, migrations: rows[0]?.applied ?? null };
  } catch {
    return { ok: false, latencyMs: null, migrations: null };
  }
}

/**
 * Tells the process and the database apart. Registered without asking who calls: that would ask the
 * database, and the answer must come also when it is away.
 */
export function health(app: FastifyInstance): void {
  const contract = routes.service.health;
  app.route({
    method: contract.method,
    url: `/api${contract.path}`,
    logLevel: 'warn',
    config: { contract },
    schema: {
      tags: [contract.tag],
      summary: contract.summary,
      response: { 200: healthSchema, 503: healthSchema },
    },
    handler: async (_request, reply) => {
      const database = await askDatabase(app);
      const process_ = { ok: true, uptimeSeconds: Math.round(process.uptime()), version };
      return reply.code(database.ok ? 200 : 503).send({ process: process_, database });
    },
  });
}
