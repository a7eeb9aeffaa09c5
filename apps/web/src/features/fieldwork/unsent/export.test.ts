import { expect, it } from 'vitest';
import type { Entry } from '../outbox/entry.ts';
import type { Content } from '../phone/content.ts';
import { unsentFile } from './export.ts';

const entry = (id: string, content: object) =>
  ({ id, madeAt: '2026-11-25T12:00:00Z', content, refusal: null }) as unknown as Entry<Content>;

it('writes everything that is not sent into one file, photos whole, whatever cannot be opened', async () => {
  const bytes = new Uint8Array(0x8000 * 2 + 5).map((_, i) => i % 251);
  const photos: Record<string, ArrayBuffer> = { 'photo-1': bytes.buffer };
  const phone = {
    me: { id: 'rater', name: 'First Rater' },
    photo: (id: string) =>
      photos[id] ? Promise.resolve(photos[id]) : Promise.reject(new Error('sealed with another key')),
  } as unknown as Parameters<typeof unsentFile>[0];
  const reading = {
    kind: 'reading',
    visitId: 'visit',
    place: 'Supply',
    body: { raw: { values: { pressure: 0.09 } } },
  };
  const photo = { kind: 'photo', visitId: 'visit', place: 'Supply', photo: { sha256: 'x' } };
  const file = await unsentFile(phone, [
    entry('1', reading),
    entry('photo-1', photo),
    entry('photo-2', photo),
  ]);
  const whole = JSON.parse(await file.text());
  expect(whole).toMatchObject({
    rater: { id: 'rater', name: 'First Rater' },
    entries: [
      { id: '1', ...reading },
      { id: 'photo-1', ...photo },
      { id: 'photo-2', ...photo },
    ],
  });
  expect(Buffer.from(whole.entries[1].photoBase64, 'base64').equals(Buffer.from(bytes))).toBe(true);
  expect(whole.entries[2]).not.toHaveProperty('photoBase64');
  expect(JSON.parse(await (await unsentFile(phone, [])).text()).entries).toEqual([]);
});
