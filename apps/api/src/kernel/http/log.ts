import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { ErrorCode } from '@countercheck/contracts';
import type { Actor } from '../actor.ts';

declare module 'fastify' {
  interface FastifyRequest {
    refusal: ErrorCode | null;
  }
}

function nameOf(actor: Actor | null): string {
  if (actor?.kind === 'user') return `${actor.role} ${actor.id}`;
  if (actor?.kind === 'installer') return `installer ${actor.id}`;
  return actor?.kind ?? 'unknown';
}

function decoded(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}

/** The path without its query, and without a token: whoever reads the log must not be able to use a link. */
const pathOf = ({ url }: FastifyRequest) =>
  decoded(url.split('?')[0] ?? '').replace(
    /\/(figures|access-links|access|ready|calendars|mail-choices)\/[^/]+/,
    '/$1/…',
  );

/** One line a request when it is answered, with who asked and how it ended. */
export function logRequests(app: FastifyInstance): void {
  app.decorateRequest('refusal', null);
  app.addHook('onResponse', async (request, reply) => {
    request.log.info(
      {
        actor: nameOf(request.actor),
        method: request.method,
        path: pathOf(request),
        status: reply.statusCode,
        ms: Math.round(reply.elapsedTime * 10) / 10,
        ...(request.refusal ? { code: request.refusal } : {}),
      },
      'answered',
    );
  });
}
