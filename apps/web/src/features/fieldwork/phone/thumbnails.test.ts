import 'fake-indexeddb/auto';
import { afterEach, expect, it } from 'vitest';
import { clearPhone, phoneStore } from '../../../lib/phone/store.ts';
import { phoneOutbox } from './outbox-store.ts';
import { Thumbnails } from './thumbnails.ts';

afterEach(() => clearPhone());
const bytes = (text: string) => new TextEncoder().encode(text).buffer;
const text = (found: ArrayBuffer | null) => found && new TextDecoder().decode(found);

it('keeps a small photo after the photo itself was sent, sealed, until the day ends', async () => {
  const store = await phoneStore();
  const outbox = phoneOutbox(store);
  const small = new Thumbnails(store);
  const content = { kind: 'not-ready' as const, visitId: 'visit', place: 'x', body: { cause: 'y' } };
  const made = { key: 'k', userId: 'rater', lane: 'house', madeAt: '2026-11-25T12:00:00Z' };
  await outbox.addPhoto({ id: 'one', ...made, content }, bytes('whole'));
  await small.keep('2026-11-25', 'one', bytes('small one'));
  await small.keep('2026-11-25', 'two', bytes('small two'));
  await outbox.done('one');
  expect(await outbox.photo('one')).toBeNull();
  expect(text(await small.read('one'))).toBe('small one');
  const stored = JSON.stringify(
    (await store.db.getAll('photos')).map(({ data }) => [...new Uint8Array(data)]),
  );
  expect(stored).not.toContain(JSON.stringify([...new TextEncoder().encode('small')]).slice(1, -1));
  await small.drop('two');
  expect(await small.read('two')).toBeNull();
  await small.sweep('2026-11-25');
  expect(text(await small.read('one'))).toBe('small one');
  await small.sweep('2026-11-26');
  expect(await small.read('one')).toBeNull();
});

it('leaves the photos that wait alone when the day ends, and nothing when the phone is cleared', async () => {
  const store = await phoneStore();
  await store.db.put('photos', await store.vault.sealBytes(bytes('whole')), 'waiting');
  const small = new Thumbnails(store);
  await small.keep('2026-11-25', 'one', bytes('small'));
  await small.sweep('2026-11-26');
  expect(await store.db.getAllKeys('photos')).toEqual(['waiting']);
  await clearPhone();
  expect(await (await phoneStore()).db.count('photos')).toBe(0);
});
