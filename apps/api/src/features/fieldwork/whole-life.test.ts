import { afterAll, beforeAll, expect, it } from 'vitest';
import type { WholeFile } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import {
  bookVisit,
  good,
  partsOf,
  readEverything,
  readingOf,
  sheetOf,
  signFigures,
} from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';

let test: TestApp;
let rater: Client;
let quality: Client;
let builder: Client;
let office: Client;

beforeAll(async () => {
  test = await startApp();
  [rater, quality, builder, office] = (await Promise.all(
    (['rater', 'quality', 'builder', 'office'] as const).map((who) => test.as(who)),
  )) as [Client, Client, Client, Client];
});
afterAll(() => test.close());

const stageOf = async (id: string) => (await office.get(`/houses/${id}`)).json<{ stage: string }>().stage;
const mailAbout = (about: string) =>
  test.app.database.as(system, (db) => db.outgoingMail.findMany({ where: { about } }));

it('goes from signed figures over a failure and a reinspection to a sealed file', async () => {
  const { house } = test.company;
  const { bath, system: ducts } = partsOf(house);
  await signFigures(test, house);
  const visit = await bookVisit(test, house.id);

  const short = {
    ...good['bath-exhaust'],
    rows: [{ label: 'Grille', values: { flow: 38 }, choices: { deviceRange: 'widest' } }],
  };
  const sheet = await readEverything(test, rater, visit, { 'bath-exhaust': short });
  expect(sheet.verdicts.filter(({ status }) => status === 'fail').map(({ item }) => item)).toEqual([
    'bath-exhaust',
  ]);
  expect(await stageOf(house.id)).toBe('in_testing');

  const submitted = await rater.post(`/visits/${visit}/submission`, {});
  expect(submitted.json()).toMatchObject({ state: 'submitted' });
  expect(await stageOf(house.id)).toBe('corrections');
  const [letter] = await mailAbout('failed items');
  expect(letter).toMatchObject({ recipient: 'site@quillbrook.example' });
  expect(letter!.body).toContain('Bath exhaust');

  const again = await rater.post(`/visits/${visit}/submission`, {});
  expect(again.json()).toEqual(submitted.json());
  expect(await mailAbout('failed items')).toHaveLength(1);

  const failed = (await builder.get('/failed-items')).json<{
    items: { id: string; item: string; timesFailed: number }[];
  }>();
  expect(failed.items).toMatchObject([{ item: 'bath-exhaust', timesFailed: 1, state: 'open' }]);
  const failedId = failed.items[0]!.id;
  const hasty = await builder.post(`/houses/${house.id}/reinspection-requests`, {});
  expect(hasty.json()).toMatchObject({ code: 'conflict' });
  const corrected = await builder.post(`/failed-items/${failedId}/corrections`, { text: 'Damper freed' });
  expect(corrected.json()).toMatchObject({ state: 'corrected' });
  const asked = await builder.post(`/houses/${house.id}/reinspection-requests`, { note: 'Any day' });
  expect(asked.statusCode).toBe(201);
  expect((await builder.post(`/houses/${house.id}/reinspection-requests`, {})).statusCode).toBe(409);
  expect(await stageOf(house.id)).toBe('reinspection_asked');
  expect(await mailAbout('reinspection')).toMatchObject([{ recipient: 'office@weir.example' }]);

  const second = await bookVisit(test, house.id, {
    kind: 'reinspection',
    scope: [{ item: 'bath-exhaust', subjectId: bath }],
  });
  expect((await sheetOf(rater, second)).verdicts.map(({ item }) => item)).toEqual(['bath-exhaust']);
  const unread = await rater.post(`/visits/${second}/submission`, {});
  expect(unread.json()).toMatchObject({ code: 'visit-not-complete' });
  const meter = test.company.instruments.exhaustFlowMeter.id;
  await rater.post(`/visits/${second}/readings`, readingOf('bath-exhaust', bath, meter, short));
  await rater.post(`/visits/${second}/submission`, {});
  const stillFailed = (await builder.get(`/failed-items/${failedId}`)).json<{
    entries: { kind: string }[];
  }>();
  expect(stillFailed).toMatchObject({ state: 'open', timesFailed: 2 });

  const third = await bookVisit(test, house.id, {
    kind: 'reinspection',
    rater: 'otherRater',
    scope: [{ item: 'bath-exhaust', subjectId: bath }],
  });
  const other = await test.as('otherRater');
  await other.post(`/visits/${third}/readings`, readingOf('bath-exhaust', bath, meter, good['bath-exhaust']));
  expect((await other.post(`/visits/${third}/submission`, {})).json()).toMatchObject({ state: 'submitted' });
  expect((await builder.get(`/failed-items/${failedId}`)).json()).toMatchObject({ state: 'closed' });
  expect(await stageOf(house.id)).toBe('in_review');
  expect((await quality.get('/reviews/queue')).json()).toMatchObject({ total: 1, items: [{ id: house.id }] });

  const file = (await quality.get(`/houses/${house.id}/file`)).json<WholeFile>();
  expect(file).toMatchObject({ releasable: true, holding: [], differences: [], ownWork: false });
  expect(file.measured.find(({ values }) => values.some(({ value }) => value === 106))).toBeDefined();

  const returned = await quality.post(`/houses/${house.id}/return`, {
    findings: [{ severity: 'major', item: 'bath-exhaust', text: 'Which setting was the meter on?' }],
  });
  expect(returned.json()).toMatchObject({ outcome: 'returned' });
  expect(await stageOf(house.id)).toBe('returned');
  expect((await mailAbout('file returned')).map(({ recipient }) => recipient).sort()).toEqual([
    'otherrater@weir.example',
    'rater@weir.example',
  ]);
  expect((await quality.post(`/houses/${house.id}/release`, {})).json()).toMatchObject({ code: 'conflict' });
  expect((await rater.post(`/houses/${house.id}/review-request`, {})).json()).toMatchObject({
    stage: 'in_review',
  });
  const held = await quality.post(`/houses/${house.id}/release`, {});
  expect(held.json()).toMatchObject({ code: 'not-releasable' });
  expect(held.json<{ detail: string }>().detail).toContain('Which setting');
  const finding = returned.json<{ findings: { id: string }[] }>().findings[0]!;
  expect((await rater.post(`/findings/${finding.id}/answer`, { answer: 'The widest' })).json()).toMatchObject(
    {
      answer: 'The widest',
    },
  );

  expect((await builder.get(`/houses/${house.id}/result`)).statusCode).toBe(404);
  const [one, two] = await Promise.all([
    quality.post(`/houses/${house.id}/release`, { note: 'Good file' }),
    (await test.as('otherQuality')).post(`/houses/${house.id}/release`, {}),
  ]);
  expect([one.statusCode, two.statusCode].sort()).toEqual([201, 409]);
  const release = [one, two]
    .find(({ statusCode }) => statusCode === 201)!
    .json<{ id: string; hash: string }>();
  expect([one, two].find(({ statusCode }) => statusCode === 409)!.json()).toMatchObject({
    code: 'file-sealed',
  });

  const sealed = (await office.get(`/releases/${release.id}`)).json<{ content: { readings: unknown[] } }>();
  expect(sealed).toMatchObject({ intact: true, hash: release.hash, recomputedHash: release.hash });
  expect(sealed.content.readings.length).toBe(file.readings.length);
  const result = (await builder.get(`/houses/${house.id}/result`)).json<{ items: { status: string }[] }>();
  expect(result).toMatchObject({ hash: release.hash, revision: 1 });
  expect(result.items.every(({ status }) => ['pass', 'exempt', 'not-applicable'].includes(status))).toBe(
    true,
  );
  expect((await (await test.as('otherBuilder')).get(`/houses/${house.id}/result`)).statusCode).toBe(404);
  expect(await mailAbout('release')).toHaveLength(1);

  const manometer = test.company.instruments.manometer.id;
  const late = await bookVisitWithoutStage(house.id);
  const refused = await rater.post(
    `/visits/${late}/readings`,
    readingOf('supply-static', ducts, manometer, good['supply-static']),
  );
  expect(refused.json()).toMatchObject({ code: 'file-sealed' });
  expect((await rater.post(`/visits/${visit}/reopening`, { reason: 'Typo' })).json()).toMatchObject({
    code: 'file-sealed',
  });
  expect((await rater.post(`/findings/${finding.id}/answer`, { answer: 'No' })).json()).toMatchObject({
    code: 'file-sealed',
  });
  expect(
    (
      await quality.post(`/houses/${house.id}/return`, { findings: [{ severity: 'minor', text: 'Late' }] })
    ).json(),
  ).toMatchObject({ code: 'file-sealed' });

  const opened = await quality.post(`/houses/${house.id}/revisions`, { reason: 'A bedroom was missed' });
  expect(opened.json()).toMatchObject({ stage: 'returned', revision: 2 });
  expect((await quality.post(`/houses/${house.id}/revisions`, { reason: 'Again' })).statusCode).toBe(409);
  expect((await builder.get(`/houses/${house.id}/result`)).json()).toMatchObject({ revision: 1 });
});

async function bookVisitWithoutStage(houseId: string): Promise<string> {
  const id = await bookVisit(test, houseId);
  await test.app.database.as(system, (db) =>
    db.house.update({ where: { id: houseId }, data: { stage: 'released' } }),
  );
  return id;
}
