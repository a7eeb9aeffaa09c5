import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implement } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';

const endings: Record<string, string> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
};

interface Sent {
  name: string;
  mediaType: string;
  tag: string;
}

/** A photo never changes under its address, but only those who may see it may keep it. */
function head(reply: FastifyReply, { name, mediaType, tag }: Sent): void {
  void reply.headers({
    etag: `"${tag}"`,
    'cache-control': 'private, max-age=86400',
    'content-disposition': `inline; filename="${name}.${endings[mediaType] ?? 'bin'}"`,
    'content-security-policy': "default-src 'none'; sandbox",
    'x-content-type-options': 'nosniff',
  });
}

const alreadyThere = (request: FastifyRequest, tag: string) =>
  (request.headers['if-none-match'] ?? '').split(',').some((each) => each.trim() === `"${tag}"`);

/** The photos themselves. Row-level security decides who sees one: a builder only those of its failed items. */
export function servePhotos(app: FastifyInstance): void {
  for (const size of ['photo', 'thumbnail'] as const) {
    implement(app, routes.service[size], async ({ actor, params, request, reply, database }) => {
      const about = await database.as(actor, async (db) =>
        found(
          await db.attachment.findUnique({
            where: params,
            select: { fileId: true, file: { select: { sha256: true, mediaType: true } } },
          }),
          'photo',
        ),
      );
      const tag = `${size}-${about.file.sha256}`;
      const mediaType = size === 'photo' ? about.file.mediaType : 'image/webp';
      head(reply, { name: `${size}-${params.id}`, mediaType, tag });
      if (alreadyThere(request, tag)) return reply.code(304).send();
      const { bytes, thumbnail } = await database.as(actor, (db) =>
        db.storedFile.findUniqueOrThrow({
          where: { id: about.fileId },
          select: { bytes: size === 'photo', thumbnail: size === 'thumbnail' },
        }),
      );
      return reply.type(mediaType).send(Buffer.from(found(size === 'photo' ? bytes : thumbnail, 'photo')));
    });
  }
}
