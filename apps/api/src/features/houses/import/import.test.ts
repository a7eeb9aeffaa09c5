import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { ImportPreview } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../../tests/support/app.ts';
import { system } from '../../../kernel/actor.ts';

let t: TestApp;
let office: Client;
beforeAll(async () => {
  t = await startApp();
  office = await t.as('office');
});
afterAll(() => t.close());

const place = 'Quillbrook Homes Field';
const header =
  'lot,address,community,plan,climate_zone,floor_area_ft2,volume_ft3,bedrooms,designed_ventilation_cfm,note';
const row = (
  lot: string,
  own: Partial<
    Record<
      'address' | 'community' | 'plan' | 'zone' | 'area' | 'volume' | 'bedrooms' | 'rate' | 'note',
      string
    >
  > = {},
) =>
  [
    lot,
    own.address ?? `${lot} Fern Row`,
    own.community ?? place,
    own.plan ?? 'Plan A',
    own.zone ?? '',
    own.area ?? '',
    own.volume ?? '',
    own.bedrooms ?? '',
    own.rate ?? '',
    own.note ?? '',
  ].join(',');
const file = (...rows: string[]) => [header, ...rows].join('\n');
const preview = async (csv: string): Promise<ImportPreview> => {
  const answer = await office.post('/houses/import/preview', { builderId: t.company.builder.id, csv });
  expect(answer.statusCode, answer.body).toBe(200);
  return answer.json();
};
const load = (csv: string) => office.post('/houses/import', { builderId: t.company.builder.id, csv });
const houses = () => t.app.database.as(system, (db) => db.house.count());
const problems = async (csv: string) =>
  (await preview(csv)).rows.flatMap(({ line, problems: of }) =>
    of.map(({ column, message }) => [line, column, message]),
  );

describe('a good file', () => {
  test('is loaded with the plan’s figures and parts where the row says nothing', async () => {
    const csv = file(
      row('A1'),
      row('A2', {
        area: '2100.5',
        volume: '19000',
        bedrooms: '3',
        rate: '70',
        zone: '5b',
        note: '"corner, west"',
      }),
    );
    expect(await preview(csv)).toMatchObject({ good: 2, bad: 0, problems: [] });
    const answer = await load(csv);
    expect(answer.statusCode, answer.body).toBe(201);
    expect(answer.json()).toEqual({ created: 2, importId: expect.any(String) });
    const { items } = (await office.get('/houses?search=Fern&order=lot')).json();
    const [first, second] = await Promise.all(
      items.map(async ({ id }: { id: string }) => (await office.get(`/houses/${id}`)).json()),
    );
    expect(first).toMatchObject({
      lot: 'A1',
      address: 'A1 Fern Row',
      plan: { name: 'Plan A' },
      climateZone: '4A',
      conditionedFloorArea: 1850,
      foundation: 'slab',
      designedVentilation: 65,
      ruleSet: { key: t.company.ruleSet.key },
    });
    expect(first.rooms).toHaveLength(4);
    expect(first.counts.waiting).toBeGreaterThan(3);
    expect(second).toMatchObject({
      climateZone: '5B',
      conditionedFloorArea: 2100.5,
      conditionedVolume: 19000,
      bedrooms: 3,
      designedVentilation: 70,
      note: 'corner, west',
    });
    const events = (await office.get(`/houses/${first.id}/events`)).json();
    expect(events.items).toMatchObject([{ action: 'house registered', reason: 'from a file' }]);
  });

  test.each([
    [
      'a byte order mark and carriage returns',
      () => `\ufeff${file(row('B1'), row('B2'))}`.replaceAll('\n', '\r\n'),
    ],
    ['semicolons', () => file(row('B1'), row('B2')).replaceAll(',', ';')],
    ['tabs', () => file(row('B1'), row('B2')).replaceAll(',', '\t')],
    ['empty rows between and after', () => `${file(row('B1'), ',,,,,,,,,', '', row('B2'))}\n\n,,,,,,,,,\n`],
    [
      'a header in capitals with blanks',
      () => file(row('B1'), row('B2')).replace(header, header.replaceAll('_', ' ').toUpperCase()),
    ],
    [
      'only the columns it needs',
      () =>
        `plan,community,address,lot\nPlan A,${place},1 Fern Row,B1\nplan a,${place.toUpperCase()},2 Fern Row,B2`,
    ],
  ])('may have %s', async (_, csv) => {
    const result = await preview(csv());
    expect(result).toMatchObject({ good: 2, bad: 0, problems: [] });
    expect(result.rows.map(({ values }) => values['lot'])).toEqual(['B1', 'B2']);
  });

  test('counts lines as an editor does, also after line breaks in a cell', async () => {
    const csv = file(row('C1', { note: '"first\nsecond\nthird"' }), '', row('C2', { area: 'x' }));
    const { rows } = await preview(csv);
    expect(rows.map(({ line }) => line)).toEqual([2, 6]);
    expect(rows[0]!.values['note']).toBe('first\nsecond\nthird');
  });

  test('loads once when sent twice at the same time', async () => {
    const before = await houses();
    const csv = file(...Array.from({ length: 30 }, (_, i) => row(`D${i}`)));
    const both = await Promise.all([load(csv), load(csv)]);
    expect(both.map((each) => each.statusCode).sort()).toEqual([201, 400]);
    expect(both.find((each) => each.statusCode === 400)!.json()).toMatchObject({ code: 'import-has-errors' });
    expect(await houses()).toBe(before + 30);
  });
});

describe('rows that cannot be loaded', () => {
  test.each([
    ['letters in a number', { area: '12O0' }, 'floor_area_ft2', '“12O0” is not a number'],
    ['a separator of thousands', { area: '"1,850"' }, 'floor_area_ft2', '“1,850” is not a number'],
    ['a number in powers of ten', { area: '1e9' }, 'floor_area_ft2', '“1e9” is not a number'],
    ['a house of a billion', { area: '1000000000' }, 'floor_area_ft2', 'At most 100,000 ft²'],
    ['an area below zero', { area: '-1850' }, 'floor_area_ft2', 'At least 100 ft²'],
    ['half a bedroom', { bedrooms: '2.5' }, 'bedrooms', 'whole number'],
    ['a wrong climate zone', { zone: '9Z' }, 'climate_zone', '“9Z” is not a climate zone'],
    ['an unknown community', { community: 'Elsewhere' }, 'community', 'no community “Elsewhere”'],
    ['a community of another builder', { community: 'Tarnfield Homes Field' }, 'community', 'no community'],
    ['an unknown plan', { plan: 'Plan Z' }, 'plan', 'no plan “Plan Z”'],
    ['no address', { address: '  ' }, 'address', 'Please fill this in'],
    ['a formula', { note: '=1+2' }, 'note', '“=1+2” is a formula'],
    ['a formula as an address', { address: '@SUM(A1)' }, 'address', 'formula'],
    ['an address without end', { address: 'x'.repeat(201) }, 'address', 'At most 200 characters'],
  ])('%s', async (_, own, column, words) => {
    expect(await problems(file(row('E1', own)))).toEqual([[2, column, expect.stringContaining(words)]]);
  });

  test('a lot twice in the file, and a lot that is registered', async () => {
    expect(await problems(file(row('F1'), row('F2'), row('F1')))).toEqual([
      [4, 'lot', `Lot F1 of ${place} stands in line 2 already.`],
    ]);
    expect(await problems(file(row('11')))).toEqual([
      [2, 'lot', `Lot 11 of ${place} is registered already.`],
    ]);
  });

  test('a row with more cells than the header, and several problems in one row', async () => {
    expect(await problems(file(`${row('F3')},extra`))).toEqual([
      [2, null, 'This row has 11 cells, the header 10.'],
    ]);
    expect(await problems(file(row('', { area: 'x', plan: '?' })))).toHaveLength(3);
  });

  test('a plan that is no longer built', async () => {
    const plan = await t.app.database.as(system, (db) =>
      db.plan.update({ where: { id: t.company.builder.planId }, data: { active: false } }),
    );
    expect(await problems(file(row('F4')))).toEqual([[2, 'plan', 'The plan “Plan A” is no longer built.']]);
    await t.app.database.as(system, (db) =>
      db.plan.update({ where: { id: plan.id }, data: { active: true } }),
    );
  });

  test('nothing is loaded when one row is bad, and the answer names it', async () => {
    const before = await houses();
    const answer = await load(file(row('G1'), row('G2', { area: '12O0' }), row('G3')));
    expect(answer.json()).toMatchObject({
      code: 'import-has-errors',
      status: 400,
      detail: '1 of 3 rows cannot be loaded; nothing was loaded.',
      fields: [{ path: 'line 3 floor_area_ft2', message: expect.stringContaining('12O0') }],
    });
    expect(await houses()).toBe(before);
  });
});

describe('files that cannot be read', () => {
  test.each([
    ['an unknown column', () => file().replace('note', 'colour'), 'Nobody knows the column “colour”'],
    [
      'a column twice',
      () => `${header},lot\n${row('H1')},H1`,
      'The column “lot” stands in the header twice.',
    ],
    [
      'a missing column',
      () => `lot,address,plan\nH1,1 Fern Row,Plan A`,
      'The column “community” is missing.',
    ],
    ['no rows', () => header, 'The file has no rows below its header.'],
    ['nothing but blanks', () => '  \n \n', 'is missing'],
    [
      'a quotation mark left open',
      () => file(row('H1', { note: '"open' })),
      'a quotation mark is opened and not closed',
    ],
    ['a quotation mark inside a cell', () => file(row('H1', { note: '6" pipe "a"x' })), 'quotation mark'],
  ])('%s', async (_, csv, words) => {
    expect((await preview(csv())).problems.join(' ')).toContain(words);
    expect((await load(csv())).json()).toMatchObject({
      code: 'import-has-errors',
      fields: expect.any(Array),
    });
  });

  test('more than 5,000 rows', async () => {
    const csv = file(...Array.from({ length: 5001 }, (_, i) => row(`X${i}`)));
    expect(await preview(csv)).toMatchObject({
      rows: [],
      problems: ['The file has 5001 rows; at most 5000 go in at once.'],
    });
    expect((await load(csv)).json()).toMatchObject({ code: 'import-has-errors' });
  });

  test('for a builder that is not there, or by whoever does not load files', async () => {
    const csv = file(row('K1'));
    const nobody = { builderId: '0199aaaa-0000-7000-8000-000000000000', csv };
    expect((await office.post('/houses/import', nobody)).json()).toMatchObject({ code: 'not-found' });
    expect((await office.post('/houses/import/preview', nobody)).json()).toMatchObject({ code: 'not-found' });
    for (const who of ['rater', 'quality', 'builder'] as const) {
      const answer = await (await t.as(who)).post('/houses/import', { builderId: t.company.builder.id, csv });
      expect(answer.json()).toMatchObject({ code: 'not-allowed' });
    }
  });
});

test('five thousand houses go in at once', async () => {
  const before = await houses();
  const began = performance.now();
  const answer = await load(file(...Array.from({ length: 5000 }, (_, i) => row(`Z${i}`))));
  expect(answer.json()).toMatchObject({ created: 5000 });
  expect(await houses()).toBe(before + 5000);
  expect(performance.now() - began).toBeLessThan(60_000);
}, 90_000);
