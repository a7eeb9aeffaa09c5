import { randomUUID } from 'node:crypto';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Photo } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { bookVisit, partsOf, readingOf, signFigures } from '../../../../../tests/support/house-life.ts';
import { upload } from '../../../../../tests/support/upload.ts';

let test: TestApp;
let rater: Client;
let visit: string;
let jpeg: Buffer;

beforeAll(async () => {
  test = await startApp();
  rater = await test.as('rater');
  await signFigures(test, test.company.house);
  visit = await bookVisit(test, test.company.house.id);
  jpeg = await sharp({ create: { width: 800, height: 600, channels: 3, background: '#3a7' } })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();
});
afterAll(() => test.close());

const toVisit = (fields: Record<string, string>, file: Buffer | null = jpeg, options = {}) =>
  upload(rater, `/visits/${visit}/photos`, fields, file, options);

describe('a photo of a visit', () => {
  it('is kept as sent, upright when small, once', async () => {
    const fields = { id: randomUUID(), caption: 'Gauge', item: 'supply-static' };
    const answer = await toVisit(fields);
    expect(answer.statusCode).toBe(201);
    const photo = answer.json<Photo>();
    expect(photo).toMatchObject({
      id: fields.id,
      width: 600,
      height: 800,
      mediaType: 'image/jpeg',
      caption: 'Gauge',
    });
    expect((await toVisit(fields)).json()).toEqual(photo);
    expect((await toVisit({ ...fields, caption: 'Other' })).json()).toMatchObject({
      code: 'same-key-other-body',
    });

    const original = await rater.get(`/photos/${photo.id}`);
    expect(original.rawPayload.equals(jpeg)).toBe(true);
    expect(original.headers).toMatchObject({
      'content-type': 'image/jpeg',
      'cache-control': expect.stringContaining('private') as string,
      'x-content-type-options': 'nosniff',
    });
    expect(original.headers['content-disposition']).toContain('.jpg');
    const etag = original.headers.etag!;
    const cached = await rater.send({
      method: 'GET',
      url: `/api/photos/${photo.id}`,
      headers: { 'if-none-match': etag },
    });
    expect(cached.statusCode).toBe(304);
    const small = await sharp((await rater.get(`/photos/${photo.id}/thumbnail`)).rawPayload).metadata();
    expect(small).toMatchObject({ format: 'webp', width: 240, height: 320 });
  });

  it('is what its bytes say, whatever it is called', async () => {
    const page = Buffer.from('<html><script>alert(1)</script></html>');
    expect((await toVisit({ id: randomUUID() }, page)).json()).toMatchObject({ code: 'file-type-refused' });
    const gif = Buffer.from('R0lGODlhAQABAAAAACH5BAEKAAEALAAAAAABAAEAAAICTAEAOw==', 'base64');
    expect((await toVisit({ id: randomUUID() }, gif)).json()).toMatchObject({ code: 'file-type-refused' });
    const png = await sharp(jpeg).png().toBuffer();
    const called = { name: 'gauge.jpg', type: 'image/jpeg' };
    expect((await toVisit({ id: randomUUID() }, png, called)).json()).toMatchObject({
      mediaType: 'image/png',
    });
    const broken = Buffer.concat([jpeg.subarray(0, 300), Buffer.alloc(40)]);
    expect((await toVisit({ id: randomUUID() }, broken)).json()).toMatchObject({ code: 'file-type-refused' });
  });

  it('does not unfold into gigabytes', async () => {
    const bomb = await sharp({ create: { width: 16_000, height: 16_000, channels: 3, background: '#fff' } })
      .png({ compressionLevel: 9 })
      .toBuffer();
    expect(bomb.length).toBeLessThan(15 * 1024 * 1024);
    expect((await toVisit({ id: randomUUID() }, bomb)).json()).toMatchObject({ code: 'file-type-refused' });
  });

  it('is refused in words when it is too large, missing, or its fields are wrong', async () => {
    const huge = Buffer.concat([jpeg, Buffer.alloc(15 * 1024 * 1024)]);
    expect((await toVisit({ id: randomUUID() }, huge)).json()).toMatchObject({ code: 'file-too-large' });
    expect((await toVisit({ id: randomUUID() }, null)).json()).toMatchObject({ fields: [{ path: 'file' }] });
    expect((await toVisit({ id: 'one' })).json()).toMatchObject({ fields: [{ path: 'id' }] });
  });

  it('is added by its own rater only, while the visit is open', async () => {
    const other = await test.as('otherRater');
    const answer = await upload(other, `/visits/${visit}/photos`, { id: randomUUID() }, jpeg);
    expect(answer.json()).toMatchObject({ code: 'visit-not-yours' });
  });
});

describe('a photo of what failed', () => {
  it('is seen by its own builder, and no other photo is', async () => {
    const { system: ducts } = partsOf(test.company.house);
    const manometer = test.company.instruments.manometer.id;
    const shown = (
      await toVisit({ id: randomUUID(), item: 'supply-static', subjectId: ducts })
    ).json<Photo>();
    const inside = (await toVisit({ id: randomUUID(), item: 'return-static' })).json<Photo>();
    const raw = { values: { pressure: 0.3 } };
    await rater.post(`/visits/${visit}/readings`, readingOf('supply-static', ducts, manometer, raw));
    await rater.post(`/visits/${visit}/submission`, { acceptWaiting: true });
    expect((await toVisit({ id: randomUUID() })).json()).toMatchObject({ code: 'visit-closed' });

    const builder = await test.as('builder');
    const [item] = (await builder.get('/failed-items')).json<{ items: { id: string; photos: Photo[] }[] }>()
      .items;
    expect(item!.photos.map(({ id }) => id)).toContain(shown.id);
    expect((await builder.get(`/photos/${shown.id}`)).statusCode).toBe(200);
    expect((await builder.get(`/photos/${inside.id}`)).statusCode).toBe(404);
    const stranger = await test.as('otherBuilder');
    expect((await stranger.get(`/photos/${shown.id}`)).statusCode).toBe(404);
    expect((await stranger.get(`/photos/${shown.id}/thumbnail`)).statusCode).toBe(404);
    expect((await test.stranger.get(`/photos/${shown.id}`)).statusCode).toBe(401);

    const fields = { id: randomUUID(), caption: 'New filter' };
    const url = `/failed-items/${item!.id}/photos`;
    const added = await upload(builder, url, fields, jpeg);
    expect(added.statusCode).toBe(201);
    expect((await upload(builder, url, fields, jpeg)).json()).toEqual(added.json());
    expect((await builder.get(`/photos/${fields.id}/thumbnail`)).statusCode).toBe(200);
    expect((await upload(stranger, url, { id: randomUUID() }, jpeg)).statusCode).toBe(404);
    expect((await rater.get(`/photos/${fields.id}`)).statusCode).toBe(200);
  });
});
