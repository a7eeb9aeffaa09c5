import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { AppError } from '../problems/app-error.ts';

/** Serves the built pages; every address that is not the API's and not a file is the app's own to route. */
export async function serveWeb(app: FastifyInstance, folder: string | undefined): Promise<void> {
  if (!folder || !existsSync(resolve(folder, 'index.html'))) return;
  await app.register(fastifyStatic, {
    root: resolve(folder),
    wildcard: false,
    setHeaders: (reply, path) => {
      const lasting = path.includes('/assets/');
      reply.setHeader('cache-control', lasting ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
  app.setNotFoundHandler(async (request, reply) => {
    if (
      request.method === 'GET' &&
      !request.url.startsWith('/api/') &&
      !/\.[a-z0-9]+$/i.test(request.url.split('?')[0] ?? '')
    ) {
      return reply.header('cache-control', 'no-cache').sendFile('index.html');
    }
    const problem = new AppError('not-found', 'There is no such address.');
    return reply.code(404).type('application/problem+json').send(problem.toProblem(request.id));
  });
}
