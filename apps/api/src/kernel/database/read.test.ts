import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '../../../../../tests/support/app.ts';
import { system } from '../actor.ts';
import type { Db } from './database.ts';

let service: TestApp;
beforeAll(async () => {
  service = await startApp();
});
afterAll(() => service.close());

const notes = (db: Db) => db.builder.findMany({ select: { note: true }, distinct: ['note'] });
const change = (note: string) =>
  service.app.database.as(system, (db) => db.builder.updateMany({ data: { note } }));

/** What somebody reads first, and after somebody else has committed a change. */
async function twice(way: 'as' | 'read', note: string) {
  return service.app.database[way](system, async (db) => {
    const first = await notes(db);
    await change(note);
    return { first, second: await notes(db) };
  });
}

it('tells everything as it stood at one moment, whatever is committed meanwhile', async () => {
  await change('before');
  const { first, second } = await twice('read', 'after');
  expect(first).toEqual([{ note: 'before' }]);
  expect(second).toEqual(first);
});

it('sees the newest commit at each statement where something is to be changed', async () => {
  await change('before');
  const { second } = await twice('as', 'after');
  expect(second).toEqual([{ note: 'after' }]);
});
