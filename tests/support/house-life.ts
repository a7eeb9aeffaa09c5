import { randomUUID } from 'node:crypto';
import type { VisitSheet } from '@countercheck/contracts';
import { testsOpen, type HouseFile } from '@countercheck/assessment';
import { displayUnit, testDefinitions, type RawReading, type TestKey } from '@countercheck/measurement';
import type { Scorecard } from '@countercheck/rules';
import type { Prisma, VisitKind } from '@countercheck/prisma';
import { system } from '../../apps/api/src/kernel/actor.ts';
import type { Client, TestApp } from './app.ts';
import type { Who } from './fixture.ts';

/** The parts of the fixture's house by name, for tests that say what they measure. */
export function partsOf(house: TestApp['company']['house']) {
  const room = (label: string) => house.rooms.find((each) => each.label === label)!.id;
  const appliance = (label: string) => house.appliances.find((each) => each.label === label)!.id;
  return {
    system: house.systems[0]!.id,
    bedroom: room('Bedroom 1'),
    otherBedroom: room('Bedroom 2'),
    bath: room('Bath 1'),
    kitchen: room('Kitchen'),
    range: appliance('Range'),
    waterHeater: appliance('Water heater'),
  };
}

/** Figures as the installer would have signed them. */
export async function signFigures(
  { app, company }: TestApp,
  house: TestApp['company']['house'],
  figures: Record<string, number> = { supplyStatic: 0.085, returnStatic: 0.1 },
): Promise<void> {
  const signed = { [partsOf(house).system]: figures } as Prisma.InputJsonObject;
  await app.database.as(system, async (db) => {
    await db.installerSubmission.create({
      data: {
        houseId: house.id,
        installerId: company.installer.id,
        revision: (await db.installerSubmission.count({ where: { houseId: house.id } })) + 1,
        figures: signed,
        signedName: company.installer.name,
      },
    });
    await db.house.update({ where: { id: house.id }, data: { stage: 'ready_to_book' } });
  });
}

let hour = 0;

/** A booked visit, an hour after the one before it. */
export async function bookVisit(
  { app, company }: TestApp,
  houseId: string,
  own: { kind?: VisitKind; rater?: Who; scope?: Prisma.InputJsonValue; raterId?: string } = {},
): Promise<string> {
  hour += 1;
  const startsAt = new Date(Date.now() + hour * 3_600_000);
  return app.database.as(system, async (db) => {
    const visit = await db.visit.create({
      data: {
        houseId,
        raterId: own.raterId ?? company.users[own.rater ?? 'rater'].id,
        kind: own.kind ?? 'final',
        startsAt,
        endsAt: new Date(startsAt.getTime() + 3_000_000),
        ...(own.scope === undefined ? {} : { scope: own.scope }),
      },
    });
    await db.house.update({ where: { id: houseId }, data: { stage: 'booked' } });
    return visit.id;
  });
}

type Own = Partial<RawReading> & Record<string, unknown>;

/** What the page sends for a reading: numbers with the text that was typed, everything ticked. */
export function readingOf(
  test: TestKey,
  subjectId: string,
  instrumentId: string | null,
  raw: Partial<RawReading>,
  own: Own = {},
) {
  const { fields, rows, confirmations } = testDefinitions[test];
  const entered: Record<string, { text: string; unit: string }> = {};
  const typed = (known: typeof fields, values: Record<string, number>, prefix: string) => {
    for (const { key, quantity } of known)
      if (values[key] !== undefined)
        entered[`${prefix}values.${key}`] = { text: String(values[key]), unit: displayUnit(quantity, 'us') };
  };
  typed(fields, raw.values ?? {}, '');
  raw.rows?.forEach((row, i) => typed(rows?.fields ?? [], row.values, `rows.${i}.`));
  return {
    id: randomUUID() as string,
    test,
    subjectId,
    raw: {
      values: {},
      choices: {},
      rows: [],
      confirmations: Object.fromEntries(confirmations.map(({ key }) => [key, true])),
      ...raw,
    },
    entered,
    instrumentId,
    takenAt: new Date().toISOString(),
    ...own,
  };
}

const row = (label: string, flow: number, choices: Record<string, string>) => ({
  label,
  values: { flow },
  choices,
});

/** Readings with which the fixture's house meets common practice. */
export const good: Record<TestKey, Partial<RawReading>> = {
  'supply-static': { values: { pressure: 0.092 } },
  'return-static': { values: { pressure: -0.1 } },
  'bedroom-pressure': { values: { pressure: 2 } },
  'bedroom-relief': { values: { supplyFlow: 100 } },
  'duct-leakage-rough': { values: { ductPressure: 25, flow: 50 } },
  'duct-leakage-total': { values: { ductPressure: 25, flow: 70 } },
  'duct-leakage-outdoors': { values: { housePressure: 25, ductToHousePressure: 0, flow: 40 } },
  'ventilator-duct-leakage': { values: { ductPressure: 25, flow: 10 } },
  'envelope-leakage': {
    values: { baselineBefore: 0 },
    rows: [{ label: '50 Pa', values: { housePressure: 50, flow: 900 }, choices: {} }],
  },
  'whole-house-ventilation': { rows: [row('Grille', 70, { airstream: 'exhaust' })] },
  'kitchen-exhaust': {
    choices: { mode: 'intermittent' },
    rows: [row('Left', 56, { deviceRange: 'widest' }), row('Right', 50, { deviceRange: 'widest' })],
  },
  'bath-exhaust': { choices: { mode: 'intermittent' }, rows: [row('Grille', 55, { deviceRange: 'widest' })] },
  'ambient-carbon-monoxide': { values: { carbonMonoxide: 3, outdoorCarbonMonoxide: 1 } },
  spillage: { values: { seconds: 20 }, choices: { vent: 'cold', ended: 'stopped' } },
  depressurization: { values: { baseline: -0.5, worstCase: -1.5 } },
  'flue-carbon-monoxide': { values: { carbonMonoxide: 40, oxygen: 8 } },
};

/** Adds a blower door, which the small company lacks, and gives a fitting instrument for each test. */
async function instrumentFor({ app, company }: TestApp): Promise<(test: TestKey) => string | null> {
  const door = await app.database.as(system, (db) =>
    db.instrument.upsert({
      where: { serial: 'B-001' },
      update: {},
      create: {
        kind: 'blower-door',
        label: 'Blower door 1',
        serial: 'B-001',
        accuracyPercent: 3,
        accuracyAbsolute: 1,
        calibrations: { create: { calibratedOn: new Date('2026-02-01'), dueOn: new Date('2099-02-01') } },
      },
    }),
  );
  const all = [...Object.values(company.instruments), door];
  return (test) => {
    const { instrumentKinds, instrumentRequired } = testDefinitions[test];
    if (!instrumentRequired) return null;
    return all.find(({ kind }) => (instrumentKinds as readonly string[]).includes(kind))!.id;
  };
}

export async function sheetOf(client: Client, visitId: string): Promise<VisitSheet> {
  return (await client.get(`/visits/${visitId}/sheet`)).json<VisitSheet>();
}

/** Reads whatever the visit still waits for, with the good values unless others are given. */
export async function readEverything(
  test: TestApp,
  client: Client,
  visitId: string,
  others: Partial<Record<TestKey, Partial<RawReading>>> = {},
): Promise<VisitSheet> {
  const fitting = await instrumentFor(test);
  for (let tries = 0; tries < 40; tries += 1) {
    const sheet = await sheetOf(client, visitId);
    const [next] = testsOpen(sheet as unknown as Scorecard, sheet.file as HouseFile);
    if (!next) return sheet;
    const raw = others[next.test] ?? good[next.test];
    const body = readingOf(next.test, next.subjectId, fitting(next.test), raw);
    const answer = await client.post(`/visits/${visitId}/readings`, body);
    if (answer.statusCode !== 201) throw new Error(`${next.test}: ${answer.body}`);
  }
  throw new Error('The house never had enough.');
}
