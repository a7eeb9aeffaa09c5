import 'fake-indexeddb/auto';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { clearPhone, phoneStore } from '../../../lib/phone/store.ts';
import { PhoneProblem, storeProblem } from '../../../lib/phone/problem.ts';
import type { NewEntry } from '../outbox/entry.ts';
import type { Content } from './content.ts';
import { phoneOutbox } from './outbox-store.ts';

const content = (cause: string): Content => ({
  kind: 'not-ready',
  visitId: 'visit',
  place: '14 Weir Lane',
  body: { cause },
});
const entry = (id: string, lane = 'house', userId = 'rater'): NewEntry<Content> => ({
  ...{ id, key: `key-${id}`, userId, lane, madeAt: '2026-11-25T12:00:00Z' },
  content: content(`secret words ${id}`),
});
const bytes = (text: string) => new TextEncoder().encode(text).buffer;

beforeEach(() => phoneStore());
afterEach(() => clearPhone());
const open = async () => phoneOutbox(await phoneStore());

it('keeps entries in the order they came, each lane and person apart', async () => {
  const outbox = await open();
  await outbox.add(entry('1'));
  await outbox.add(entry('2', 'other house'));
  await outbox.add(entry('3', 'house', 'other rater'));
  await outbox.add(entry('4'));
  expect((await outbox.all()).map(({ id }) => id)).toEqual(['1', '2', '3', '4']);
  expect((await outbox.first('rater', 'house'))?.id).toBe('1');
  await outbox.done('1');
  expect((await outbox.first('rater', 'house'))?.id).toBe('4');
  expect((await outbox.first('other rater', 'house'))?.id).toBe('3');
  expect(await outbox.first('other rater', 'other house')).toBeNull();
  await expect(outbox.add(entry('4'))).rejects.toThrow();
  expect((await outbox.all()).map(({ id }) => id)).toEqual(['2', '3', '4']);
});

it('is there for the next page, with its photo, until the service has it', async () => {
  await (await open()).addPhoto(entry('1'), bytes('a photo'));
  const next = await open();
  expect(await next.read()).toMatchObject([
    { id: '1', attempts: 0, refusal: null, content: content('secret words 1') },
  ]);
  expect(new TextDecoder().decode((await next.photo('1'))!)).toBe('a photo');
  await next.done('1');
  expect(await next.read()).toEqual([]);
  expect(await next.photo('1')).toBeNull();
});

it('takes back only what cannot have arrived', async () => {
  const outbox = await open();
  await outbox.add(entry('1'));
  await outbox.add(entry('2'));
  expect(await outbox.withdraw('1')).toBe(true);
  expect(await outbox.claim('1')).toBeNull();
  expect(await outbox.claim('2')).toMatchObject({ attempts: 1 });
  expect(await outbox.withdraw('2')).toBe(false);
  const refusal = { code: 'conflict', title: 'Read already', detail: null, remedy: 'Decide', fields: [] };
  await outbox.refuse('2', refusal);
  expect(await outbox.claim('2')).toBeNull();
  expect(await outbox.read()).toMatchObject([{ id: '2', refusal }]);
  expect(await outbox.decide('2', content('decided'), 'another key')).toBe(true);
  expect(await outbox.decide('2', content('again'), 'a third key')).toBe(false);
  expect(await outbox.read()).toMatchObject([
    { key: 'another key', refusal: null, content: content('decided') },
  ]);
  expect(await outbox.claim('2')).toMatchObject({ attempts: 2, content: content('decided') });
});

it('lets nobody read without the key, and gives nobody the key', async () => {
  const { db, vault } = await phoneStore();
  const outbox = await open();
  await outbox.addPhoto(entry('1'), bytes('a photo of a gauge'));
  const stored = await Promise.all([db.getAll('contents'), db.getAll('photos'), db.getAll('outbox')]);
  const text = JSON.stringify(stored, (_, value: unknown) =>
    value instanceof ArrayBuffer ? new TextDecoder('latin1').decode(value) : value,
  );
  expect(text).not.toMatch(/secret words|gauge|Weir/);
  const key = (await db.get('keys', 'phone'))!;
  expect(key.extractable).toBe(false);
  await expect(crypto.subtle.exportKey('raw', key)).rejects.toThrow();
  const sealed = await vault.seal({ reading: 1 });
  new Uint8Array(sealed.data)[3]! ^= 1;
  await expect(vault.open(sealed)).rejects.toThrow();
});

it('forgets everything with its key when it is cleared', async () => {
  await (await open()).add(entry('1'));
  const { put } = await phoneStore();
  await put('me', { name: 'First Rater' });
  await clearPhone();
  const { get } = await phoneStore();
  expect(await get('me')).toBeNull();
  expect(await (await open()).all()).toEqual([]);
});

it('says in words when there is no room, and keeps nothing by halves', async () => {
  const outbox = await open();
  const { db } = await phoneStore();
  const full = new DOMException('full', 'QuotaExceededError');
  const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
    throw full;
  });
  const failed = await outbox.addPhoto(entry('1'), bytes('a photo')).catch((error: unknown) => error);
  put.mockRestore();
  expect(storeProblem(failed)).toBeInstanceOf(PhoneProblem);
  expect((storeProblem(failed) as PhoneProblem).title).toContain('no room');
  expect([await db.count('outbox'), await db.count('contents'), await db.count('photos')]).toEqual([0, 0, 0]);
});

it('goes on sending when there is no room to write down that it does', async () => {
  const outbox = await open();
  await outbox.add(entry('1'));
  await outbox.add(entry('2'));
  const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
    throw new DOMException('full', 'QuotaExceededError');
  });
  try {
    expect(await outbox.claim('1')).toMatchObject({ attempts: 1, content: content('secret words 1') });
    // The service may have it by now.
    expect(await outbox.withdraw('1')).toBe(false);
    expect(await outbox.claim('1')).toMatchObject({ attempts: 2 });
    const refusal = { code: 'conflict', title: 'Read already', detail: null, remedy: 'Decide', fields: [] };
    await outbox.refuse('1', refusal);
    expect(await outbox.claim('1')).toBeNull();
    expect((await outbox.first('rater', 'house'))?.refusal).not.toBeNull();
    expect(await outbox.read()).toMatchObject([
      { id: '1', refusal },
      { id: '2', attempts: 0, refusal: null },
    ]);
    expect(await outbox.withdraw('1')).toBe(true);
    expect(await outbox.claim('2')).toMatchObject({ attempts: 1 });
    await outbox.done('2');
    expect(await outbox.all()).toEqual([]);
  } finally {
    put.mockRestore();
  }
});
