import 'fake-indexeddb/auto';
import { afterEach, expect, it, vi } from 'vitest';
import { clearPhone, phoneStore } from '../../../lib/phone/store.ts';
import { Drafts } from './drafts.ts';

afterEach(() => clearPhone());

it('keeps what was typed while there is no room, says so, and writes it when there is', async () => {
  const store = await phoneStore();
  const told: number[] = [];
  const drafts = new Drafts(store, (count) => told.push(count));
  drafts.setItem('one', 'before');
  await drafts.written();
  const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
    throw new DOMException('full', 'QuotaExceededError');
  });
  drafts.setItem('one', 'newer');
  drafts.setItem('two', 'other');
  await drafts.written();
  put.mockRestore();
  expect(drafts.getItem('one')).toBe('newer');
  expect(told).toEqual([1, 2]);
  drafts.tryAgain();
  await drafts.written();
  expect(told).toEqual([1, 2, 1, 0]);
  const next = new Drafts(store);
  await next.load();
  expect([next.getItem('one'), next.getItem('two'), next.length]).toEqual(['newer', 'other', 2]);
});
