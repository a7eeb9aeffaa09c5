import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { ItemVerdict } from '@countercheck/rules';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { bookVisit, partsOf, readingOf } from '../../../../../tests/support/house-life.ts';

let t: TestApp;
let office: Client;
let quality: Client;
let rater: Client;
beforeAll(async () => {
  t = await startApp();
  [office, quality, rater] = [await t.as('office'), await t.as('quality'), await t.as('rater')];
});
afterAll(() => t.close());

const post = (client: Client, path: string, body: object) => client.post(path, body);
const openAgain = (client: Client, reason = 'The filter rack was rebuilt') =>
  post(client, `/houses/${t.company.house.id}/figure-openings`, {
    installerId: t.company.installer.id,
    reason,
  });
const sign = (token: string, figures: Record<string, number>, expectedRevision: number) =>
  t.stranger.post(`/figures/${token}`, {
    figures: { [partsOf(t.company.house).system]: figures },
    signedName: 'Fitter One',
    expectedRevision,
  });
const read = (
  visit: string,
  key: 'supply-static' | 'return-static',
  pressure: number,
  own: Record<string, unknown> = {},
) =>
  post(
    rater,
    `/visits/${visit}/readings`,
    readingOf(
      key,
      partsOf(t.company.house).system,
      t.company.instruments.manometer.id,
      { values: { pressure } },
      own,
    ),
  );
const verdictOf = async (item: string): Promise<ItemVerdict> => {
  const file = (await quality.get(`/houses/${t.company.house.id}/file`)).json();
  return file.verdicts.find((each: ItemVerdict) => each.item === item);
};
const submissions = async () => (await quality.get(`/houses/${t.company.house.id}/submissions`)).json();
const tokenOf = (url: string) => url.split('/').at(-1)!;

describe('figures opened again', () => {
  let first = '';
  let token = '';
  const readings: Record<string, string> = {};

  test('only after something that is judged by them was corrected', async () => {
    const { house } = t.company;
    const link = await post(office, `/houses/${house.id}/installer-links`, {
      installerId: t.company.installer.id,
    });
    first = tokenOf(link.json().url);
    await sign(first, { supplyStatic: 0.1, returnStatic: 0.1 }, 0);
    expect((await openAgain(office)).json()).toMatchObject({ code: 'conflict' });

    const visit = await bookVisit(t, house.id);
    const taken = await read(visit, 'supply-static', 0.3);
    expect(taken.statusCode, taken.body).toBe(201);
    expect((await openAgain(office)).json().detail).toContain('The rater is measuring');
    await read(visit, 'return-static', -0.1);
    await post(rater, `/visits/${visit}/submission`, { acceptWaiting: true });
    for (const each of taken.json().readings) readings[each.test] = each.id;
    expect((await openAgain(office)).json().detail).toContain('No corrected item');
    expect(await submissions()).toMatchObject({ mayOpenAgain: false, openings: [] });
    expect((await sign(first, { supplyStatic: 0.29, returnStatic: 0.1 }, 1)).json()).toMatchObject({
      code: 'figures-frozen',
    });

    const builder = await t.as('builder');
    const [failed] = (await builder.get('/failed-items')).json().items;
    expect(failed.item).toBe('supply-static');
    await post(builder, `/failed-items/${failed.id}/corrections`, { text: 'New filter rack' });
    expect(await submissions()).toMatchObject({ mayOpenAgain: true });
    expect((await openAgain(rater)).json()).toMatchObject({ code: 'not-allowed' });
    expect((await openAgain(office, ' ')).json()).toMatchObject({
      code: 'invalid-input',
      fields: [{ path: 'reason' }],
    });
  });

  test('with the reason in the log, in the letter and on the installer’s page', async () => {
    const answer = await openAgain(quality);
    expect(answer.statusCode, answer.body).toBe(201);
    token = tokenOf(answer.json().url);
    const form = (await t.stranger.get(`/figures/${token}`)).json();
    expect(form).toMatchObject({
      frozen: false,
      opening: { reason: 'The filter rack was rebuilt', closedAt: null },
      submissions: [{ revision: 1 }],
    });
    const { items } = (await office.get(`/houses/${t.company.house.id}/events`)).json();
    expect(items.find(({ action }: { action: string }) => action === 'figures opened again')).toMatchObject({
      reason: 'The filter rack was rebuilt',
      after: { items: [{ item: 'supply-static' }] },
    });
    expect((await openAgain(office)).json().detail).toContain('open already');
    const mail = await t.app.database.as({ kind: 'system', name: 'test' }, (db) =>
      db.outgoingMail.findFirstOrThrow({ orderBy: { createdAt: 'desc' } }),
    );
    expect(mail.body).toContain('for a reinspection: The filter rack was rebuilt');
  });

  test('a new signature changes nothing that was read before it', async () => {
    const before = await verdictOf('supply-static');
    expect(before.status).toBe('fail');
    const signed = await sign(token, { supplyStatic: 0.29, returnStatic: 0.02 }, 1);
    expect(signed.json()).toMatchObject({ revision: 2, frozenAt: null });
    expect(await verdictOf('supply-static')).toEqual(before);
  });

  test('the reinspection goes by the revision in force when it is read, and the trace says which', async () => {
    const { house } = t.company;
    const visit = await bookVisit(t, house.id, { kind: 'reinspection' });
    const old = (await rater.get(`/visits/${visit}/sheet`)).json();
    const again = old.readings.find(({ test }: { test: string }) => test === 'supply-static');
    const taken = await read(visit, 'supply-static', 0.3, {
      supersedesId: again.id,
      supersedeReason: 'Reinspection',
    });
    expect(taken.statusCode, taken.body).toBe(201);

    const supply = await verdictOf('supply-static');
    expect(supply).toMatchObject({ status: 'pass', reason: expect.stringContaining('reported 0.29') });
    expect(supply.trace.inputs.find(({ from }) => from === 'reported')).toMatchObject({
      value: 0.29,
      revision: 2,
    });
    // Not read again: it stays with what was signed when it was read.
    const back = await verdictOf('return-static');
    expect(back).toMatchObject({ status: 'pass', reason: expect.stringContaining('reported 0.1') });
    expect(back.trace.inputs.find(({ from }) => from === 'reported')).toMatchObject({
      value: 0.1,
      revision: 1,
    });

    const { items, openings } = await submissions();
    expect(items.map(({ revision }: { revision: number }) => revision)).toEqual([2, 1]);
    expect(items.every(({ frozenAt }: { frozenAt: string | null }) => frozenAt !== null)).toBe(true);
    expect(items[1].figures).toEqual({ [partsOf(house).system]: { supplyStatic: 0.1, returnStatic: 0.1 } });
    expect(openings).toMatchObject([{ closedAt: expect.any(String) }]);
    for (const each of [first, token])
      expect((await sign(each, { supplyStatic: 0.3, returnStatic: 0.1 }, 2)).json()).toMatchObject({
        code: 'figures-frozen',
      });
  });
});
