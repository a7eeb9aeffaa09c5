import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';

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
  // A route rather than a second not-found handler, of which there can be only one.
  app.get('/*', { schema: { hide: true } }, (request, reply) => {
    const path = request.url.split('?')[0] ?? '';
    if (path.startsWith('/api/')) return reply.callNotFound();
    // A page built anew while the service runs brings files that were not there when it started.
    if (/\.[a-z0-9]+$/i.test(path)) return reply.sendFile(path.slice(1));
    return reply.header('cache-control', 'no-cache').sendFile('index.html');
  });
}
