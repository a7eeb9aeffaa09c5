import { randomUUID } from 'node:crypto';
import { addDays } from 'date-fns';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { VisitSheet } from '@countercheck/contracts';
import type { TestKey } from '@countercheck/measurement';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import {
  bookVisit,
  good,
  partsOf,
  readingOf,
  sheetOf,
  signFigures,
} from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';

let test: TestApp;
let rater: Client;
let house: TestApp['company']['house'];
let visit: string;
let lot = 100;

/** A house of its own for each case, so that one case's readings are not another's. */
async function freshHouse(own: object = {}) {
  const { company, app } = test;
  lot += 1;
  const made = await app.database.as(system, (db) =>
    addHouse(db, company.ruleSet.id, company.builder, { lot: String(lot), ...own }),
  );
  await signFigures(test, made);
  return made;
}

beforeAll(async () => {
  test = await startApp();
  rater = await test.as('rater');
});
afterAll(() => test.close());
beforeEach(async () => {
  house = await freshHouse();
  visit = await bookVisit(test, house.id);
});

const manometer = () => test.company.instruments.manometer.id;
const tester = () => test.company.instruments.ductTester.id;
const send = (body: object, to = visit, client = rater) => client.post(`/visits/${to}/readings`, body);
const supply = (pressure: number, own: object = {}) =>
  readingOf('supply-static', partsOf(house).system, manometer(), { values: { pressure } }, own as never);
const verdict = (sheet: VisitSheet, item: string, subjectId?: string) =>
  sheet.verdicts.find((each) => each.item === item && (!subjectId || each.subjectId === subjectId))!;
const problem = (answer: { json(): unknown }) =>
  answer.json() as { code: string; detail?: string; fields?: { path: string; message: string }[] };

describe('the numbers of the trade', () => {
  it.each([
    [0.092, 'pass'],
    [0.0935, 'pass'],
    [0.0936, 'fail'],
    [0.06, 'pass'],
  ])('a supply static of %s against a reported 0.085 is a %s', async (pressure, status) => {
    const sheet = (await send(supply(pressure))).json<VisitSheet>();
    expect(verdict(sheet, 'supply-static').status).toBe(status);
  });

  it.each([
    [232, 'pass'],
    [240, 'pass'],
    [241, 'fail'],
  ])('%s cfm of duct leakage in 4,000 ft² is a %s', async (flow, status) => {
    const large = await freshHouse({ conditionedFloorArea: 4000 });
    const there = await bookVisit(test, large.id);
    const raw = { values: { ductPressure: 25, flow } };
    const answer = await send(readingOf('duct-leakage-total', partsOf(large).system, tester(), raw), there);
    expect(verdict(answer.json<VisitSheet>(), 'duct-leakage-total').status).toBe(status);
  });

  it('reads a fan pressure off the maker’s table of its range, and nothing beyond it', async () => {
    const day = (offset: number) => addDays(new Date(), offset).toISOString().slice(0, 10);
    // invented
    const table = [
      { pressure: 10, flow: 16.2 },
      { pressure: 25, flow: 25.4 },
      { pressure: 60, flow: 39.8 },
    ];
    const ranges = [{ range: 'Plate', minPa: 10, maxPa: 60, table }];
    const office = await test.as('office');
    const { id } = (
      await office.post('/instruments', {
        ...{ kind: 'duct-tester', label: 'Plate tester', serial: 'PT-1' },
        ...{ accuracyPercent: 3, accuracyAbsolute: 1 },
      })
    ).json();
    const calibration = { calibratedOn: day(-9), dueOn: day(300), ranges };
    expect((await office.post(`/instruments/${id}/calibrations`, calibration)).statusCode).toBe(201);
    const read = (fanPressure: number) =>
      send(
        readingOf('duct-leakage-total', partsOf(house).system, id, {
          values: { ductPressure: 25, fanPressure },
          choices: { range: 'Plate' },
        }),
      );
    const sheet = (await read(40)).json<VisitSheet>();
    // 25.4 cfm at 25 Pa and 39.8 at 60 Pa as a power law between the two: 32.3 at 40 Pa
    expect(verdict(sheet, 'duct-leakage-total').reason).toMatch(/\b32\.[1-6]|\b32 cfm/);
    expect(sheet.file.readings[0]!.instrument!.ranges[0]).toMatchObject({ c: null, table });
    const [refused] = problem(await read(61)).fields!;
    expect(refused).toMatchObject({ path: 'raw.values.fanPressure' });
    expect(refused!.message).toContain('range Plate holds from 10 to 60 Pa');
  });

  it('adds the inlets of a kitchen hood: neither 56 nor 50 is enough, both together are', async () => {
    const { kitchen } = partsOf(house);
    const meter = test.company.instruments.exhaustFlowMeter.id;
    const answer = await send(readingOf('kitchen-exhaust', kitchen, meter, good['kitchen-exhaust']));
    expect(verdict(answer.json<VisitSheet>(), 'kitchen-exhaust').status).toBe('pass');
    const rows = [good['kitchen-exhaust'].rows![0]!];
    const again = await bookVisit(test, house.id);
    const one = await send(
      readingOf('kitchen-exhaust', kitchen, meter, { ...good['kitchen-exhaust'], rows }),
      again,
    );
    expect(verdict(one.json<VisitSheet>(), 'kitchen-exhaust').status).toBe('fail');
  });
});

describe('what cannot have been read', () => {
  const cases: [string, () => object, string][] = [
    ['no pressure at all', () => supply(0), 'raw.values.pressure'],
    ['a billion', () => supply(1e9), 'raw.values.pressure'],
    [
      'no value',
      () => ({ ...supply(0.09), raw: { ...supply(0.09).raw, values: {} }, entered: {} }),
      'raw.values.pressure',
    ],
    ['no instrument', () => ({ ...supply(0.09), instrumentId: null }), 'instrumentId'],
    ['an unknown instrument', () => ({ ...supply(0.09), instrumentId: randomUUID() }), 'instrumentId'],
    ['another kind of instrument', () => ({ ...supply(0.09), instrumentId: tester() }), 'instrumentId'],
    ['an unknown part', () => ({ ...supply(0.09), subjectId: randomUUID() }), 'subjectId'],
    ['another kind of part', () => ({ ...supply(0.09), subjectId: partsOf(house).kitchen }), 'subjectId'],
    [
      'something not ticked',
      () => ({ ...supply(0.09), raw: { ...supply(0.09).raw, confirmations: {} } }),
      'raw.confirmations.installersTestHole',
    ],
    ['tomorrow', () => supply(0.09, { takenAt: new Date(Date.now() + 3_600_000).toISOString() }), 'takenAt'],
    [
      'last month',
      () => supply(0.09, { takenAt: new Date(Date.now() - 30 * 86_400_000).toISOString() }),
      'takenAt',
    ],
    ['a number nobody typed', () => supply(0.09, { entered: {} }), 'raw.values.pressure'],
    [
      'another number than typed',
      () => supply(0.09, { entered: { 'values.pressure': { text: '0.9', unit: 'inH2O' } } }),
      'raw.values.pressure',
    ],
    [
      'another unit than typed',
      () => supply(0.09, { entered: { 'values.pressure': { text: '0.09', unit: 'Pa' } } }),
      'raw.values.pressure',
    ],
    [
      'typed but not sent',
      () => supply(0.09, { entered: { ...supply(0.09).entered, 'values.more': { text: '1', unit: 'Pa' } } }),
      'entered.values.more',
    ],
    [
      'a negative area',
      () =>
        readingOf('bedroom-relief', partsOf(house).bedroom, test.company.instruments.exhaustFlowMeter.id, {
          values: { supplyFlow: 100 },
          rows: [{ label: 'Grille', values: { freeArea: -20 }, choices: { kind: 'grille' } }],
        }),
      'raw.rows.0.values.freeArea',
    ],
    [
      'an unknown range',
      () =>
        readingOf('duct-leakage-total', partsOf(house).system, tester(), {
          values: { ductPressure: 25, fanPressure: 60 },
          choices: { range: 'Ring 9' },
        }),
      'raw.choices.range',
    ],
  ];
  it.each(cases)('%s is refused in words', async (_name, body, path) => {
    const answer = problem(await send(body()));
    expect(answer.code).toBe('invalid-input');
    expect(answer.fields!.map((field) => field.path)).toContain(path);
    expect((await sheetOf(rater, visit)).readings).toEqual([]);
  });

  it('a power of ten is no way to type a number', async () => {
    const entered = { 'values.pressure': { text: '9e-2', unit: 'inH2O' } };
    expect(problem(await send(supply(0.09, { entered }))).code).toBe('invalid-input');
  });

  it('what was typed in Pa is kept as typed and computed in inches', async () => {
    const entered = { 'values.pressure': { text: '22,9', unit: 'Pa' } };
    const answer = await send(supply(0.0919350444449895, { entered }));
    expect(answer.statusCode).toBe(201);
    expect(answer.json<VisitSheet>().readings[0]!.entered).toEqual(entered);
  });
});

describe('a visit', () => {
  it('begins with its first reading, and the figures stay as signed from then on', async () => {
    await send(supply(0.09));
    const sheet = await sheetOf(rater, visit);
    expect(sheet.visit).toMatchObject({ state: 'in_progress', house: { stage: 'in_testing' } });
    expect(sheet.visit.startedAt).not.toBeNull();
    const [signed] = await test.app.database.as(system, (db) =>
      db.installerSubmission.findMany({ where: { houseId: house.id } }),
    );
    expect(signed!.frozenAt).not.toBeNull();
    const events = await test.app.database.as(system, (db) =>
      db.event.findMany({ where: { houseId: house.id }, orderBy: { id: 'asc' } }),
    );
    expect(events.map(({ action }) => action)).toEqual(
      expect.arrayContaining([
        'visit begun',
        'figures frozen',
        'stage changed',
        'reading recorded',
        'verdict changed',
      ]),
    );
  });

  it('belongs to the rater it was booked for', async () => {
    const other = await test.as('otherRater');
    expect(problem(await send(supply(0.09), visit, other)).code).toBe('visit-not-yours');
    expect(problem(await other.get(`/visits/${visit}/sheet`)).code).toBe('visit-not-yours');
    expect(problem(await other.post(`/visits/${visit}/submission`, {})).code).toBe('visit-not-yours');
    for (const who of ['office', 'quality', 'administrator'] as const)
      expect((await (await test.as(who)).get(`/visits/${visit}/sheet`)).statusCode).toBe(200);
    expect((await (await test.as('builder')).get(`/visits/${visit}/sheet`)).statusCode).toBe(403);
    expect((await rater.get(`/visits/${randomUUID()}/sheet`)).statusCode).toBe(404);
  });

  it('takes nothing more once it was submitted, and a second submission changes nothing', async () => {
    const body = supply(0.09);
    await send(body);
    expect(problem(await rater.post(`/visits/${visit}/submission`, {})).code).toBe('visit-not-complete');
    const submitted = await rater.post(`/visits/${visit}/submission`, { acceptWaiting: true });
    expect(submitted.json()).toMatchObject({ state: 'submitted', house: { stage: 'ready_to_book' } });
    expect((await rater.post(`/visits/${visit}/submission`, {})).json()).toEqual(submitted.json());
    expect(problem(await send(supply(0.1))).code).toBe('visit-closed');
    expect((await send(body)).statusCode).toBe(201);
    expect(problem(await rater.post(`/visits/${visit}/not-ready`, { cause: 'Locked' })).code).toBe(
      'visit-closed',
    );
  });

  it('can be opened again until somebody has acted on it', async () => {
    await send(supply(0.3));
    await rater.post(`/visits/${visit}/submission`, { acceptWaiting: true });
    const failed = await test.app.database.as(system, (db) =>
      db.failedItem.findMany({ where: { houseId: house.id } }),
    );
    expect(failed).toMatchObject([{ state: 'open', timesFailed: 1 }]);
    expect((await rater.post(`/visits/${visit}/reopening`, { reason: 'Typo' })).statusCode).toBe(200);
    expect((await sheetOf(rater, visit)).visit).toMatchObject({
      state: 'in_progress',
      house: { stage: 'in_testing' },
    });
    await rater.post(`/visits/${visit}/submission`, { acceptWaiting: true });
    const builder = await test.as('builder');
    const item = (await builder.get(`/failed-items/${failed[0]!.id}`)).json();
    expect(item).toMatchObject({ state: 'open', timesFailed: 1 });
    await builder.post(`/failed-items/${failed[0]!.id}/corrections`, { text: 'New filter' });
    expect(problem(await rater.post(`/visits/${visit}/reopening`, { reason: 'Typo' })).code).toBe('conflict');
  });

  it('with a stop-work finding reaches the office at once', async () => {
    const monitor = test.company.instruments.ambientCoMonitor.id;
    const raw = { values: { carbonMonoxide: 60 } };
    const sheet = (
      await send(readingOf('ambient-carbon-monoxide', 'house', monitor, raw))
    ).json<VisitSheet>();
    expect(sheet.stopWork).toHaveLength(1);
    expect(sheet.releasable).toBe(false);
    await rater.post(`/visits/${visit}/submission`, { acceptWaiting: true });
    const mail = await test.app.database.as(system, (db) =>
      db.outgoingMail.findMany({ where: { about: 'stop work', subject: { contains: house.address } } }),
    );
    expect(mail.map(({ recipient }) => recipient)).toEqual(['office@weir.example']);
    const event = await test.app.database.as(system, (db) =>
      db.event.findFirstOrThrow({ where: { houseId: house.id, action: 'visit submitted' } }),
    );
    expect(event.after).toMatchObject({ stopWork: [{ item: 'ambient-carbon-monoxide' }] });
  });

  it('is not ready once, with a cause, and takes no readings then', async () => {
    const answer = await rater.post(`/visits/${visit}/not-ready`, { cause: 'No power' });
    expect(answer.json()).toMatchObject({
      state: 'not_ready',
      cause: 'No power',
      house: { stage: 'ready_to_book' },
    });
    expect((await rater.post(`/visits/${visit}/not-ready`, { cause: 'No power' })).statusCode).toBe(200);
    expect(problem(await send(supply(0.09))).code).toBe('visit-closed');
  });
});

describe('a reading sent again or corrected', () => {
  it('is kept once; another content under the same id is refused', async () => {
    const body = supply(0.092);
    const first = await send(body);
    const second = await send(body);
    expect([first.statusCode, second.statusCode]).toEqual([201, 201]);
    expect(second.json<VisitSheet>().readings).toEqual(first.json<VisitSheet>().readings);
    expect(problem(await send({ ...supply(0.06), id: body.id })).code).toBe('same-key-other-body');
  });

  it('comes once when it is sent five times at once', async () => {
    const body = supply(0.092);
    const answers = await Promise.all(Array.from({ length: 5 }, () => send(body)));
    expect(answers.map(({ statusCode }) => statusCode)).toEqual([201, 201, 201, 201, 201]);
    expect((await sheetOf(rater, visit)).readings).toHaveLength(1);
  });

  it('of two different ones at once only one stands', async () => {
    const answers = await Promise.all([send(supply(0.09)), send(supply(0.3))]);
    expect(answers.map(({ statusCode }) => statusCode).sort()).toEqual([201, 409]);
    const refused = problem(answers.find(({ statusCode }) => statusCode === 409)!);
    expect(refused).toMatchObject({ code: 'conflict' });
    expect(refused.detail).toContain('Correct that reading');
  });

  it('is corrected by a newer one with a reason; the older one stays', async () => {
    const wrong = supply(0.92);
    expect(verdict((await send(wrong)).json<VisitSheet>(), 'supply-static').status).toBe('fail');
    expect(problem(await send(supply(0.092, { supersedesId: wrong.id }))).code).toBe('reason-required');
    const right = supply(0.092, { supersedesId: wrong.id, supersedeReason: 'Decimal point' });
    const sheet = (await send(right)).json<VisitSheet>();
    expect(verdict(sheet, 'supply-static').status).toBe('pass');
    expect(sheet.readings.map(({ id, supersededById }) => [id, supersededById])).toEqual(
      expect.arrayContaining([
        [wrong.id, right.id],
        [right.id, null],
      ]),
    );
    expect(sheet.file.readings.map(({ id }) => id)).toEqual([right.id]);
    const late = supply(0.05, { supersedesId: wrong.id, supersedeReason: 'Again' });
    expect(problem(await send(late)).code).toBe('reading-superseded');
    const foreign = supply(0.05, { supersedesId: randomUUID(), supersedeReason: 'Again' });
    expect(problem(await send(foreign)).fields).toMatchObject([{ path: 'supersedesId' }]);
  });

  it('takes the place of no reading of another test, of another part or in another house', async () => {
    const parts = partsOf(house);
    const earlier = await freshHouse();
    const read = (key: TestKey, part: string, instrument: string, raw = good[key], own: object = {}) =>
      readingOf(key, part, instrument, raw, own as never);
    const monitor = test.company.instruments.ambientCoMonitor.id;
    const air = read('ambient-carbon-monoxide', 'house', monitor);
    expect((await send(air, await bookVisit(test, earlier.id))).statusCode).toBe(201);
    const kept = [supply(0.092), read('bedroom-pressure', parts.bedroom, manometer())];
    for (const each of kept) expect((await send(each)).statusCode).toBe(201);
    const instead = (of: { id: string }) => ({ supersedesId: of.id, supersedeReason: 'Again' });
    for (const wrong of [
      read('return-static', parts.system, manometer(), undefined, instead(kept[0]!)),
      read('bedroom-pressure', parts.otherBedroom, manometer(), undefined, instead(kept[1]!)),
      read('ambient-carbon-monoxide', 'house', monitor, undefined, instead(air)),
    ])
      expect(problem(await send(wrong)).fields).toMatchObject([{ path: 'supersedesId' }]);
    expect((await sheetOf(rater, visit)).readings).toHaveLength(kept.length);
  });

  it('never changes a row that is there', async () => {
    const body = supply(0.092);
    await send(body);
    await expect(
      test.app.database.as(system, (db) =>
        db.reading.update({ where: { id: body.id }, data: { subjectId: 'house' } }),
      ),
    ).rejects.toThrow();
  });
});

/** A manometer beside the company's own. */
const ownManometer = (own: { active?: boolean; calibratedOn: Date; dueOn: Date }) => {
  const { active = true, ...calibration } = own;
  return test.app.database.as(system, (db) =>
    db.instrument.create({
      data: {
        ...{ kind: 'manometer', label: 'Old manometer', serial: randomUUID(), active },
        ...{ accuracyPercent: 1, accuracyAbsolute: 0.1 },
        calibrations: { create: calibration },
      },
    }),
  );
};

describe('an instrument that is not in order', () => {
  it('out of service, gives no reading', async () => {
    const calibration = { calibratedOn: addDays(new Date(), -9), dueOn: addDays(new Date(), 300) };
    const { id } = await ownManometer({ ...calibration, active: false });
    const [refused] = problem(await send({ ...supply(0.092), instrumentId: id })).fields!;
    expect(refused).toEqual({ path: 'instrumentId', message: 'Old manometer is out of service.' });
  });

  it('out of calibration, gives a reading that is kept and does not count', async () => {
    const old = await ownManometer({ calibratedOn: new Date('2024-01-01'), dueOn: new Date('2025-01-01') });
    const sheet = (await send({ ...supply(0.092), instrumentId: old.id })).json<VisitSheet>();
    expect(sheet.readings).toHaveLength(1);
    expect(sheet.readings[0]!.instrument).toMatchObject({ calibratedOn: '2024-01-01', dueOn: '2025-01-01' });
    expect(verdict(sheet, 'supply-static')).toMatchObject({ status: 'waiting' });
    expect(verdict(sheet, 'supply-static').reason).toContain('calibration');
  });
});
