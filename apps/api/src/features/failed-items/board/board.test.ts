import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FailedGroup, FirstTime, RepeatFailure, WaitingTimes } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../../tests/support/fixture.ts';
import { system } from '../../../kernel/actor.ts';

let test: TestApp;
let quality: Client;
const day = 86_400_000;
const ago = (days: number) => new Date(Date.now() - days * day - 3_600_000);

/** Eight items in each house; those named failed, so many days ago, and were looked at again after so many days. */
const houses: { lot: string; other?: boolean; failed: [item: string, ago: number, again?: number][] }[] = [
  {
    lot: '41',
    failed: [
      ['duct-leakage-total', 100],
      ['spillage', 100, 10],
    ],
  },
  { lot: '42', failed: [['duct-leakage-total', 20, 4]] },
  { lot: '43', failed: [['duct-leakage-total', 5]] },
  { lot: '44', failed: [] },
  { lot: '45', other: true, failed: [['spillage', 40]] },
];
const items = ['duct-leakage-total', 'spillage', 'a', 'b', 'c', 'd', 'e', 'f'];

beforeAll(async () => {
  test = await startApp();
  quality = await test.as('quality');
  const { ruleSet, builder, otherBuilder, users, installer } = test.company;
  await test.app.database.as(system, async (db) => {
    for (const [place, { lot, other, failed }] of houses.entries()) {
      const { id: houseId } = await addHouse(db, ruleSet.id, other ? otherBuilder : builder, { lot });
      const startsAt = ago(failed[0]?.[1] ?? 10);
      await db.visit.create({
        data: {
          ...{
            houseId,
            raterId: place % 2 ? users.rater.id : users.otherRater.id,
            kind: 'final',
            state: 'submitted',
          },
          ...{ startsAt, endsAt: new Date(startsAt.getTime() + 1000), submittedAt: startsAt },
        },
      });
      await db.installerSubmission.create({
        data: { houseId, installerId: installer.id, revision: 1, figures: {}, signedName: 'x' },
      });
      await db.itemResult.createMany({
        data: items.map((item) => ({
          ...{ houseId, item, subjectId: 'house', reason: 'x', verdict: {} },
          status: failed.some(([each, , again]) => each === item && again === undefined) ? 'fail' : 'pass',
        })),
      });
      for (const [item, days, again] of failed) {
        const row = await db.failedItem.create({
          data: {
            ...{ houseId, item, title: item.toUpperCase(), subjectId: 'house', subjectLabel: 'House' },
            ...{ trade: item === 'spillage' ? 'plumber' : 'hvac-installer', reason: '=1+1', correction: 'x' },
            ...{ openedAt: ago(days), openedById: users.rater.id },
            ...(again === undefined ? {} : { state: 'closed', closedAt: ago(days - again), timesFailed: 2 }),
          },
        });
        if (again !== undefined)
          await db.failedItemEntry.create({
            data: { failedItemId: row.id, kind: 'reopened', text: 'x', byName: 'x', at: ago(days - again) },
          });
      }
    }
  });
});
afterAll(() => test.close());

const ask = async <T>(path: string) => {
  const answer = await quality.get(`/failed-items/${path}`);
  expect(answer.statusCode, answer.body).toBe(200);
  return answer.json<T>();
};
interface Paged<T> {
  items: T[];
  total: number;
}

describe('groups', () => {
  it('rank what failed and add the shares up, with the age of what is open', async () => {
    const { items: groups, total } = await ask<Paged<FailedGroup>>('groups?by=item');
    expect(total).toBe(2);
    expect(groups[0]).toEqual({
      rank: 1,
      ...{
        key: 'duct-leakage-total',
        label: 'DUCT-LEAKAGE-TOTAL',
        failed: 3,
        times: 4,
        share: 0.6,
        cumulative: 0.6,
      },
      ...{ open: 2, openWeek: 1, openMonth: 0, openQuarter: 0, openLonger: 1, oldestDays: 100 },
    });
    expect(groups[1]).toMatchObject({ key: 'spillage', failed: 2, cumulative: 1, open: 1, openQuarter: 1 });
  });

  it('go over pages with their shares', async () => {
    const second = await ask<Paged<FailedGroup>>('groups?by=item&page=2&pageSize=1');
    expect(second).toMatchObject({
      total: 2,
      items: [{ rank: 2, key: 'spillage', share: 0.4, cumulative: 1 }],
    });
  });

  it('are by builder, trade and community too, and only of what was asked for', async () => {
    const labels = async (query: string) =>
      (await ask<Paged<FailedGroup>>(`groups?${query}`)).items.map(({ label, failed }) => [label, failed]);
    const { builder, otherBuilder } = test.company;
    expect(await labels('by=builder')).toEqual([
      [builder.name, 4],
      [otherBuilder.name, 1],
    ]);
    expect(await labels('by=trade')).toEqual([
      ['hvac-installer', 3],
      ['plumber', 2],
    ]);
    expect(await labels('by=community')).toEqual([
      [builder.communityName, 4],
      [otherBuilder.communityName, 1],
    ]);
    expect(await labels(`by=builder&item=spillage&builderId=${builder.id}`)).toEqual([[builder.name, 1]]);
    const from = ago(50).toISOString().slice(0, 10);
    const to = ago(10).toISOString().slice(0, 10);
    expect(await labels(`by=item&from=${from}&to=${to}`)).toEqual([
      ['DUCT-LEAKAGE-TOTAL', 1],
      ['SPILLAGE', 1],
    ]);
    expect(await labels('by=item&trade=nobody')).toEqual([]);
  });
});

it('the first-time pass rate counts what never failed, with exact intervals', async () => {
  const by = async (key: string) => (await ask<Paged<FirstTime>>(`first-time?by=${key}`)).items;
  const [first, second] = await by('builder');
  // 4 of 32 failed with the one, 1 of 8 with the other: the same rate, the larger group first.
  expect(first).toMatchObject({ label: test.company.builder.name, decided: 32, passed: 28, rate: 0.875 });
  expect(second).toMatchObject({ label: test.company.otherBuilder.name, decided: 8, passed: 7, rate: 0.875 });
  // Clopper-Pearson for 28 of 32 and for 7 of 8, worked out with another program's beta quantiles.
  expect(first!.low).toBeCloseTo(0.71005, 4);
  expect(first!.high).toBeCloseTo(0.96487, 4);
  expect(second!.low).toBeCloseTo(0.47349, 4);
  expect(second!.high).toBeCloseTo(0.99684, 4);
  expect(await by('installer')).toMatchObject([{ label: 'Fitter One, Reed Air', decided: 40, passed: 35 }]);
  expect((await by('rater')).map(({ label, decided, passed }) => [label, decided, passed]).sort()).toEqual([
    ['First Rater', 16, 15],
    ['Second Rater', 24, 20],
  ]);
  const [worst] = await by('item');
  expect(worst).toMatchObject({ key: 'duct-leakage-total', decided: 5, passed: 2 });
  expect(worst!.label).not.toBe('duct-leakage-total');
});

it('names what failed again and again in one plan', async () => {
  const { items: repeats, total } = await ask<Paged<RepeatFailure>>('repeats');
  expect(total).toBe(1);
  expect(repeats[0]).toMatchObject({
    ...{ item: 'duct-leakage-total', houses: 3, ofHouses: 4, times: 4, plan: { name: 'Plan A' } },
    builder: { name: test.company.builder.name },
  });
});

it('counts who still waits as waiting', async () => {
  const waiting = await ask<WaitingTimes>('waiting');
  expect(waiting).toMatchObject({ items: 5, lookedAtAgain: 2, stillWaiting: 3 });
  // At 4 days 1 of 5, at 10 days 1 of 3 (one was 5 days old): 4/5, then 4/5 · 2/3.
  expect(waiting.curve.map(({ days, atRisk }) => [days, atRisk])).toEqual([
    [4, 5],
    [5, 4],
    [10, 3],
    [40, 2],
    [100, 1],
  ]);
  expect(waiting.curve[2]!.waiting).toBeCloseTo(8 / 15, 12);
  expect(waiting.quantiles).toEqual([
    { share: 0.25, days: 10 },
    { share: 0.5, days: null },
    { share: 0.75, days: null },
    { share: 0.9, days: null },
  ]);
  expect(await ask<WaitingTimes>('waiting?item=nothing')).toMatchObject({ items: 0, curve: [] });
});

it('exports what was asked for, and no formula', async () => {
  const answer = await quality.get('/failed-items/export?item=spillage');
  expect(answer.headers['content-type']).toContain('text/csv');
  const rows = parse<Record<string, string>>(answer.body, { columns: true, bom: true });
  expect(rows.map(({ lot, state }) => [lot, state])).toEqual([
    ['41', 'closed'],
    ['45', 'open'],
  ]);
  expect(rows[0]).toMatchObject({
    item: 'SPILLAGE',
    by_how_much: "'=1+1",
    days_open: '10',
    times_failed: '2',
  });
});
