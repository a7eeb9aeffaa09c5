import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { releaseFile } from './release-file.ts';

export function releaseFiles(app: FastifyInstance): void {
  implementInTransaction(app, routes.review.release, ({ db, actor, params, body, request }) =>
    releaseFile(db, actor, request.id, params.id, { note: body.note, publicUrl: app.config.publicUrl }),
  );
}
