import { createHash, randomUUID } from 'node:crypto';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { PhotoUpload, VisitSheet } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { bookVisit, signFigures } from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';

let test: TestApp;
let rater: Client;
let visit: string;
let jpeg: Buffer;

beforeAll(async () => {
  test = await startApp();
  rater = await test.as('rater');
  await signFigures(test, test.company.house);
  visit = await bookVisit(test, test.company.house.id);
  jpeg = await sharp({ create: { width: 640, height: 480, channels: 3, background: '#a73' } })
    .jpeg()
    .toBuffer();
});
afterAll(() => test.close());

const hash = (bytes: Buffer) => createHash('sha256').update(bytes).digest('hex');
const announce = (id: string, more: object = {}, client = rater) =>
  client.post(`/visits/${visit}/photo-uploads`, {
    ...{ id, size: jpeg.length, sha256: hash(jpeg), item: 'supply-static' },
    ...more,
  });
const piece = (id: string, offset: number, bytes: Buffer) =>
  rater.send({
    method: 'PATCH',
    url: `/api/photo-uploads/${id}?offset=${offset}`,
    headers: { 'content-type': 'application/octet-stream' },
    payload: bytes,
  });
const photosOf = async () => (await rater.get(`/visits/${visit}/sheet`)).json<VisitSheet>().photos;

it('takes a photo in pieces, goes on where it stopped, and keeps it once', async () => {
  const id = randomUUID();
  const at = 700;
  expect((await announce(id)).json()).toMatchObject({ received: 0, kept: false });
  expect((await piece(id, 0, jpeg.subarray(0, at))).json()).toMatchObject({ received: at });
  // The answer was lost: the same piece again changes nothing, and a place that was not reached is refused.
  expect((await piece(id, 0, jpeg.subarray(0, at))).json()).toMatchObject({ received: at });
  expect((await piece(id, at + 1, jpeg.subarray(at + 1))).json()).toMatchObject({ code: 'upload-offset' });
  expect((await announce(id)).json()).toMatchObject({ received: at });
  expect((await rater.get(`/photo-uploads/${id}`)).json()).toMatchObject({ received: at });
  expect(await photosOf()).toEqual([]);

  const last = await piece(id, at, jpeg.subarray(at));
  expect(last.json<PhotoUpload>()).toMatchObject({ received: jpeg.length, kept: true });
  expect((await piece(id, at, jpeg.subarray(at))).json()).toEqual(last.json());
  expect((await announce(id)).json()).toEqual(last.json());
  const photos = await photosOf();
  expect(photos).toMatchObject([{ id, item: 'supply-static', sha256: hash(jpeg) }]);
  expect((await rater.get(`/photos/${id}`)).rawPayload.equals(jpeg)).toBe(true);
  const left = await test.app.database.as(system, (db) => db.photoUploadPiece.count());
  expect(left).toBe(0);
});

it('finishes what stopped between the last byte and the answer', async () => {
  const id = randomUUID();
  await announce(id);
  await piece(id, 0, jpeg.subarray(0, 500));
  // All bytes are there, and the service stopped before it made them a photo.
  await test.app.database.as(system, async (db) => {
    const bytes = new Uint8Array(jpeg.subarray(500));
    await db.photoUploadPiece.create({ data: { uploadId: id, offset: 500, bytes } });
    await db.photoUpload.update({ where: { id }, data: { received: jpeg.length } });
  });
  expect((await announce(id)).json()).toMatchObject({ received: jpeg.length, kept: false });
  expect((await piece(id, jpeg.length, Buffer.alloc(0))).json()).toMatchObject({ kept: true });
});

it('throws away bytes that are not those announced, and begins anew', async () => {
  const id = randomUUID();
  await announce(id);
  const wrong = Buffer.from(jpeg);
  wrong[600]! ^= 1;
  expect((await piece(id, 0, wrong)).json()).toMatchObject({ code: 'upload-differs' });
  expect((await announce(id)).json()).toMatchObject({ received: 0, kept: false });
  expect((await piece(id, 0, jpeg)).json()).toMatchObject({ kept: true });
});

it('refuses what is no photo, too large, or announced as something else', async () => {
  const id = randomUUID();
  const text = Buffer.from('no photo at all');
  await announce(id, { size: text.length, sha256: hash(text) });
  expect((await piece(id, 0, text)).json()).toMatchObject({ code: 'file-type-refused' });
  expect((await announce(id, { caption: 'Other' })).json()).toMatchObject({ code: 'same-key-other-body' });
  expect((await announce(randomUUID(), { size: 16 * 1024 * 1024 })).json()).toMatchObject({
    code: 'invalid-input',
  });
  const large = await piece(randomUUID(), 0, Buffer.alloc(1024 * 1024 + 1));
  expect(large.json()).toMatchObject({ code: 'file-too-large' });
  const stranger = await test.as('otherRater');
  expect((await announce(randomUUID(), {}, stranger)).json()).toMatchObject({ code: 'visit-not-yours' });
  expect((await stranger.get(`/photo-uploads/${id}`)).statusCode).toBe(404);
});
