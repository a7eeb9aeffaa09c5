import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { ReadingBody, VisitSheet } from '@countercheck/contracts';
import { withEntries } from '../../apps/web/src/features/fieldwork/phone/local-sheet.ts';
import { startApp, type Client, type TestApp } from '../support/app.ts';
import { bookVisit, good, partsOf, readingOf, signFigures } from '../support/house-life.ts';

let test: TestApp;
let rater: Client;

beforeAll(async () => {
  test = await startApp();
  rater = await test.as('rater');
  await signFigures(test, test.company.house);
});
afterAll(() => test.close());

const sheetOf = async (id: string) => (await rater.get(`/visits/${id}/sheet`)).json<VisitSheet>();

it('is on the phone what it will be at the service: readings, verdicts, and the state of the visit', async () => {
  const { house, instruments, users } = test.company;
  const parts = partsOf(house);
  const visit = await bookVisit(test, house.id);
  const before = await sheetOf(visit);
  const bodies = [
    readingOf('supply-static', parts.system, instruments.manometer.id, good['supply-static']),
    readingOf('return-static', parts.system, instruments.manometer.id, { values: { pressure: -0.3 } }),
    readingOf('bath-exhaust', parts.bath, instruments.exhaustFlowMeter.id, good['bath-exhaust']),
  ] as unknown as ReadingBody[];
  const second = {
    ...bodies[1]!,
    id: randomUUID(),
    supersedesId: bodies[1]!.id,
    supersedeReason: 'Hose slipped',
  };
  const corrected: ReadingBody = {
    ...second,
    raw: { ...second.raw, values: { pressure: -0.1 } },
    entered: { 'values.pressure': { text: '-0.1', unit: bodies[1]!.entered['values.pressure']!.unit } },
  };
  const all = [...bodies, corrected];
  const entries = all.map((body) => ({
    id: body.id,
    madeAt: new Date().toISOString(),
    content: { kind: 'reading' as const, visitId: visit, place: '', body },
  }));
  const person = { id: users.rater.id, name: users.rater.name };
  const onPhone = withEntries(before, entries, person, 'US/Central');

  for (const body of all) {
    const answer = await rater.post(`/visits/${visit}/readings?answer=receipt`, body);
    expect(answer.statusCode, answer.body).toBe(201);
  }
  const atService = await sheetOf(visit);
  expect(onPhone.verdicts).toEqual(atService.verdicts);
  expect(onPhone.stopWork).toEqual(atService.stopWork);
  expect(onPhone.visit.state).toBe(atService.visit.state);
  const told = (sheet: VisitSheet) =>
    sheet.readings
      .map(({ id, supersedesId, supersededById, raw, instrument }) => ({
        ...{ id, supersedesId, supersededById, raw, instrument },
      }))
      .sort((a, b) => a.id.localeCompare(b.id));
  expect(told(onPhone)).toEqual(told(atService));
  // What has arrived is not added a second time.
  expect(withEntries(atService, entries, person, 'US/Central')).toBe(atService);
});
