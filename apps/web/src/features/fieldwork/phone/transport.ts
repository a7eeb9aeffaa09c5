import { fieldwork, type PhotoUpload } from '@countercheck/contracts';
import { call, sendBytes, type Sending } from '../../../lib/client.ts';
import { ApiProblem } from '../../../lib/problem.ts';
import { announceExpiry } from '../../../lib/session-expiry.ts';
import type { Entry, Refusal } from '../outbox/entry.ts';
import type { Answer } from '../outbox/sender.ts';
import type { Content, PhotoContent } from './content.ts';

/** Small enough to arrive over a connection that lasts a few seconds, large enough not to wait for each answer. */
const pieceBytes = 256 * 1024;
const patienceMs = 30_000;

/** Refusals that say nothing about the entry: it is worth sending again as it is. */
const passing = new Set(['request-in-flight', 'upload-offset', 'upload-differs', 'too-many-requests']);

const sending = (key?: string): Sending => ({
  signal: AbortSignal.timeout(patienceMs),
  ...(key ? { headers: { 'idempotency-key': key } } : {}),
});

async function sendPhoto(visitId: string, photo: PhotoContent, bytes: ArrayBuffer): Promise<void> {
  const args = { params: { id: visitId }, body: photo };
  let upload: PhotoUpload = await call(fieldwork.beginUpload, args, sending());
  while (!upload.kept) {
    const offset = upload.received;
    const piece = bytes.slice(offset, offset + pieceBytes);
    const to = { params: { id: photo.id }, query: { offset } };
    upload = await sendBytes(fieldwork.sendPiece, to, piece, sending());
    if (!upload.kept && upload.received <= offset && piece.byteLength > 0)
      throw new TypeError('the photo does not get on');
  }
}

async function deliver({ content, key, id }: Entry<Content>, photoOf: PhotoOf): Promise<void> {
  const params = { id: content.visitId };
  if (content.kind === 'photo') {
    const bytes = await photoOf(id);
    if (!bytes) throw new PhotoGone();
    return sendPhoto(content.visitId, content.photo, bytes);
  }
  if (content.kind === 'reading') {
    const args = { params, query: { answer: 'receipt' as const }, body: content.body };
    return void (await call(fieldwork.read, args, sending(key)));
  }
  if (content.kind === 'submission')
    return void (await call(fieldwork.submit, { params, body: content.body }, sending(key)));
  await call(fieldwork.notReady, { params, body: content.body }, sending(key));
}

class PhotoGone extends Error {}

type PhotoOf = (id: string) => Promise<ArrayBuffer | null>;

const gone: Refusal = {
  code: 'not-found',
  title: 'The photo is no longer on this phone',
  detail: null,
  remedy: 'Take the entry back and take the photo again.',
  fields: [],
};

/** Sends one entry and says what became of it; what is not understood is tried again rather than given up. */
export async function send(entry: Entry<Content>, photoOf: PhotoOf): Promise<Answer> {
  try {
    await deliver(entry, photoOf);
    return { kind: 'done' };
  } catch (error) {
    if (error instanceof PhotoGone) return { kind: 'refused', refusal: gone };
    if (!(error instanceof ApiProblem)) return { kind: 'again' };
    const { code, status, title, detail, remedy, fields, retryAfterSeconds } = error.details;
    if (status === 401 || code === 'second-factor-setup-required') {
      announceExpiry();
      return { kind: 'sign-in' };
    }
    // An answer without a code of ours came from something in between.
    if (status >= 500 || code === 'internal-error' || passing.has(code))
      return { kind: 'again', ...(retryAfterSeconds ? { afterMs: retryAfterSeconds * 1000 } : {}) };
    return {
      kind: 'refused',
      refusal: { code, title, detail: detail ?? null, remedy, fields: fields ?? [] },
    };
  }
}
