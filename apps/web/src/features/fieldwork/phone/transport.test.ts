import { afterEach, expect, it, vi } from 'vitest';
import { onExpiry } from '../../../lib/session-expiry.ts';
import type { Entry } from '../outbox/entry.ts';
import type { Content } from './content.ts';
import { send } from './transport.ts';

afterEach(() => vi.unstubAllGlobals());

const entry = (content: object): Entry<Content> =>
  ({ id: 'photo', key: 'the key', content: { visitId: 'visit', place: '', ...content } }) as Entry<Content>;
const notReady = entry({ kind: 'not-ready', body: { cause: 'No power' } });
const none = async () => null;

function answering(...answers: (Response | Error)[]) {
  const asked: { url: string; init: RequestInit }[] = [];
  vi.stubGlobal('fetch', async (url: string, init: RequestInit) => {
    asked.push({ url, init });
    const next = answers.shift();
    if (!next || next instanceof Error) throw next ?? new Error('asked too often');
    return next;
  });
  return asked;
}
const problem = (status: number, code: string, more: object = {}) =>
  Response.json({ type: '', title: 'Title', status, code, remedy: 'Remedy', ...more }, { status });

it('sends an entry under its key', async () => {
  const asked = answering(Response.json({ id: 'visit' }));
  expect(await send(notReady, none)).toEqual({ kind: 'done' });
  expect(asked[0]!.url).toBe('/api/visits/visit/not-ready');
  expect(asked[0]!.init.headers).toMatchObject({ 'idempotency-key': 'the key' });
});

it.each([
  ['no network', new TypeError('Failed to fetch')],
  ['a page of somebody in between', new Response('<html>', { status: 200 })],
  ['a refusal of somebody in between', new Response('<html>', { status: 403 })],
  ['a fault', problem(500, 'internal-error')],
  ['a database that is away', problem(503, 'database-unavailable')],
  ['the same under way', problem(409, 'request-in-flight')],
])('tries again after %s', async (_, answer) => {
  answering(answer);
  expect(await send(notReady, none)).toEqual({ kind: 'again' });
});

it('waits as long as it is told', async () => {
  answering(problem(429, 'too-many-requests', { retryAfterSeconds: 7 }));
  expect(await send(notReady, none)).toEqual({ kind: 'again', afterMs: 7000 });
});

it('asks to sign in, and leaves to a person what the service refuses', async () => {
  let told = 0;
  const stop = onExpiry(() => (told += 1));
  answering(problem(401, 'sign-in-required'));
  expect(await send(notReady, none)).toEqual({ kind: 'sign-in' });
  stop();
  expect(told).toBe(1);
  answering(problem(409, 'visit-closed', { detail: 'It was cancelled.' }));
  expect(await send(notReady, none)).toEqual({
    kind: 'refused',
    refusal: {
      ...{ code: 'visit-closed', title: 'Title', detail: 'It was cancelled.', remedy: 'Remedy', fields: [] },
    },
  });
});

it('sends a photo from where the service has come to', async () => {
  const bytes = new Uint8Array(600 * 1024).buffer;
  const photo = entry({ kind: 'photo', photo: { id: 'photo', size: bytes.byteLength, sha256: 'x' } });
  const upload = (received: number, kept = false) => Response.json({ id: 'photo', size: 1, received, kept });
  const half = 300 * 1024;
  const asked = answering(upload(half), upload(half + 256 * 1024), upload(bytes.byteLength, true));
  expect(await send(photo, async () => bytes)).toEqual({ kind: 'done' });
  expect(asked.map(({ url }) => url)).toEqual([
    '/api/visits/visit/photo-uploads',
    `/api/photo-uploads/photo?offset=${half}`,
    `/api/photo-uploads/photo?offset=${half + 256 * 1024}`,
  ]);
  expect((asked[1]!.init.body as ArrayBuffer).byteLength).toBe(256 * 1024);
  expect((asked[2]!.init.body as ArrayBuffer).byteLength).toBe(44 * 1024);
  // A service that does not get on is left for later.
  answering(upload(half), upload(half));
  expect(await send(photo, async () => bytes)).toEqual({ kind: 'again' });
  // One whose bytes are gone stops nothing for ever.
  expect(await send(photo, none)).toMatchObject({ kind: 'refused' });
});
