import { createHash, randomUUID } from 'node:crypto';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { WholeFile } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { bookVisit, partsOf, readEverything, signFigures } from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';
import { software } from '../../kernel/versions/software.ts';
import { hashOf } from './seal.ts';

let test: TestApp;
let quality: Client;
let rater: Client;
let house: TestApp['company']['house'];
let fileId: string;

beforeAll(async () => {
  test = await startApp();
  quality = await test.as('quality');
  rater = await test.as('rater');
  house = test.company.house;
  await signFigures(test, house);
  const visit = await bookVisit(test, house.id);
  await readEverything(test, rater, visit);
  await rater.post(`/visits/${visit}/submission`, {});
  const bytes = Buffer.from('a photo');
  const { id: addedById, name: addedByName } = test.company.users.rater;
  const photo = { id: randomUUID(), houseId: house.id, visitId: visit, addedById, addedByName };
  const file = await inside((db) =>
    db.storedFile.create({
      data: {
        ...{ bytes, size: bytes.length, mediaType: 'image/jpeg', attachments: { create: photo } },
        sha256: createHash('sha256').update(bytes).digest('hex'),
      },
    }),
  );
  fileId = file.id;
});
afterAll(() => test.close());

const inside = <T>(work: Parameters<typeof test.app.database.as<T>>[1]) => test.app.database.as(system, work);
const file = async () => (await quality.get(`/houses/${house.id}/file`)).json<WholeFile>();
const release = (client = quality) => client.post(`/houses/${house.id}/release`, {});

describe('what holds a release', () => {
  it('nothing, when everything passed', async () => {
    expect(await file()).toMatchObject({ releasable: true, holding: [], ownWork: false });
  });

  it('a stored verdict that the raw readings do not bear out', async () => {
    const where = { houseId: house.id, item: 'supply-static' };
    await inside((db) => db.itemResult.updateMany({ where, data: { status: 'fail', reason: 'By hand' } }));
    const { differences, releasable } = await file();
    expect(differences).toMatchObject([{ item: 'supply-static', stored: 'fail: By hand' }]);
    expect(differences[0]!.again).toMatch(/^pass: /);
    expect(releasable).toBe(false);
    expect((await release()).json()).toMatchObject({ code: 'not-releasable' });
    await inside((db) => db.itemResult.deleteMany({ where: { houseId: house.id } }));
    expect((await file()).differences).toEqual([]);
  });

  it('a visit that is still open', async () => {
    const visit = await bookVisit(test, house.id);
    await inside((db) => db.house.update({ where: { id: house.id }, data: { stage: 'in_review' } }));
    const refused = (await release()).json<{ code: string; fields: { path: string }[] }>();
    expect(refused).toMatchObject({ code: 'not-releasable', fields: [{ path: 'visits' }] });
    await inside((db) => db.visit.update({ where: { id: visit }, data: { state: 'cancelled' } }));
  });

  it('a failed item that is open, and verdicts that wait, safety among them', async () => {
    // No calibration is changed; one that ended earlier is recorded after it, and then a good one.
    const kind = { in: ['ambient-co-monitor', 'combustion-analyzer'] };
    const calibrate = (calibratedOn: string, dueOn: string) =>
      inside(async (db) => {
        for (const { id } of await db.instrument.findMany({ where: { kind } }))
          await db.instrumentCalibration.create({
            data: { instrumentId: id, calibratedOn: new Date(calibratedOn), dueOn: new Date(dueOn) },
          });
      });
    await calibrate('2026-02-02', '2026-03-01');
    const row = await inside((db) =>
      db.failedItem.create({
        data: {
          ...{ houseId: house.id, item: 'bath-exhaust', title: 'Bath exhaust', subjectLabel: 'Bath 1' },
          ...{ trade: 'hvac-installer', reason: 'Too little', correction: 'Clean it' },
          subjectId: partsOf(house).bath,
          openedById: test.company.users.rater.id,
        },
      }),
    );
    const { holding } = await file();
    expect(holding.join('\n')).toMatch(/Safety: .*waits/);
    expect(holding.join('\n')).toContain('Bath exhaust, Bath 1 is still open');
    expect((await release()).json()).toMatchObject({ code: 'not-releasable' });
    await inside((db) => db.failedItem.update({ where: { id: row.id }, data: { state: 'closed' } }));
    await calibrate('2026-02-03', '2027-02-01');
    expect((await file()).holding).toEqual([]);
  });

  it('that it is one’s own work', async () => {
    const other = test.company.users.otherQuality.id;
    const visit = await bookVisit(test, house.id, { raterId: other });
    await inside(async (db) => {
      await db.visit.update({ where: { id: visit }, data: { state: 'submitted' } });
      await db.house.update({ where: { id: house.id }, data: { stage: 'in_review' } });
    });
    const own = await test.as('otherQuality');
    expect((await own.get(`/houses/${house.id}/file`)).json()).toMatchObject({ ownWork: true });
    expect((await release(own)).json()).toMatchObject({ code: 'own-work' });
    const findings = [{ severity: 'minor', text: 'Mine' }];
    expect((await own.post(`/houses/${house.id}/return`, { findings })).json()).toMatchObject({
      code: 'own-work',
    });
  });

  it('a reading that is not what the log says was recorded', async () => {
    const client = new pg.Client({ connectionString: test.urls.ownerUrl });
    await client.connect();
    const change = async (from: string, to: string) => {
      await client.query('ALTER TABLE readings DISABLE TRIGGER USER');
      const { rowCount } = await client.query(
        `UPDATE readings SET raw = replace(raw::text, $2, $3)::jsonb WHERE house_id = $1 AND test = 'supply-static'`,
        [house.id, from, to],
      );
      await client.query('ALTER TABLE readings ENABLE TRIGGER USER');
      expect(rowCount).toBe(1);
    };
    try {
      await change('0.092', '0.091');
      const { holding } = await file();
      expect(holding).toEqual([expect.stringMatching(/not what the event log says/)]);
      expect((await release()).json()).toMatchObject({ code: 'not-releasable' });
      await change('0.091', '0.092');
      expect((await file()).holding).toEqual([]);
    } finally {
      await client.end();
    }
  });

  it('the role: only quality managers release, and nobody outside reads the file', async () => {
    for (const who of ['rater', 'office', 'administrator', 'builder'] as const)
      expect((await release(await test.as(who))).statusCode, who).toBe(403);
    for (const who of ['rater', 'builder'] as const)
      expect((await (await test.as(who)).get(`/houses/${house.id}/file`)).statusCode, who).toBe(403);
    expect((await quality.get('/houses/00000000-0000-4000-8000-000000000000/file')).statusCode).toBe(404);
  });
});

describe('a sealed file', () => {
  let sealed: { id: string; hash: string };

  beforeAll(async () => {
    const answer = await release();
    expect(answer.statusCode).toBe(201);
    sealed = answer.json();
  });

  it('holds its hash, and the result comes from it and not from the rows of today', async () => {
    expect((await quality.get(`/releases/${sealed.id}`)).json()).toMatchObject({
      intact: true,
      recomputedHash: sealed.hash,
    });
    await inside((db) =>
      db.itemResult.updateMany({ where: { houseId: house.id }, data: { reason: 'Doctored' } }),
    );
    const result = await (await test.as('builder')).get(`/houses/${house.id}/result`);
    expect(result.statusCode).toBe(200);
    expect(result.body).not.toContain('Doctored');
  });

  it('can be changed by nobody, the owner of the tables included', async () => {
    const owner = new pg.Client({ connectionString: test.urls.ownerUrl });
    await owner.connect();
    try {
      const change = `UPDATE releases SET content = '{}' WHERE id = '${sealed.id}'`;
      await expect(owner.query(change)).rejects.toThrow(/append-only/);
      await expect(owner.query(`DELETE FROM releases WHERE id = '${sealed.id}'`)).rejects.toThrow(
        /append-only/,
      );
    } finally {
      await owner.end();
    }
  });

  it('that was doctored is told apart', async () => {
    const row = await inside((db) => db.release.findUniqueOrThrow({ where: { id: sealed.id } }));
    const content = structuredClone(row.content) as Prisma.JsonObject;
    expect(hashOf(content)).toBe(sealed.hash);
    (content['house'] as Prisma.JsonObject)['conditionedFloorArea'] = 1851;
    expect(hashOf(content)).not.toBe(sealed.hash);
    const doctored = await inside((db) =>
      db.release.create({
        data: {
          ...{ houseId: house.id, revision: 2, hash: row.hash, content: content as Prisma.InputJsonObject },
          ...{ releasedBy: row.releasedBy, releasedById: row.releasedById },
        },
      }),
    );
    expect((await quality.get(`/releases/${doctored.id}`)).json()).toMatchObject({ intact: false });
  });

  it('says with what software it was made', async () => {
    const { content } = (await quality.get(`/releases/${sealed.id}`)).json<{ content: object }>();
    expect(content).toMatchObject({ software: await software() });
  });

  it('that was written anew with its hash, or whose photo was exchanged, is told apart by log and bytes', async () => {
    const problems = async () =>
      (await quality.get(`/releases/${sealed.id}`)).json<{ problems: string[] }>().problems;
    expect(await problems()).toEqual([]);
    const client = new pg.Client({ connectionString: test.urls.ownerUrl });
    await client.connect();
    try {
      await client.query('ALTER TABLE stored_files DISABLE TRIGGER USER');
      await client.query('ALTER TABLE releases DISABLE TRIGGER USER');
      await client.query(`UPDATE stored_files SET bytes = bytes || '\\x00' WHERE id = $1`, [fileId]);
      expect(await problems()).toEqual([expect.stringMatching(/^1 of 1 photos/)]);
      await client.query(
        `UPDATE stored_files SET bytes = substr(bytes, 1, length(bytes) - 1) WHERE id = $1`,
        [fileId],
      );
      const row = await inside((db) => db.release.findUniqueOrThrow({ where: { id: sealed.id } }));
      const content = structuredClone(row.content) as Prisma.JsonObject;
      (content['house'] as Prisma.JsonObject)['conditionedFloorArea'] = 1851;
      const put = 'UPDATE releases SET content = $1, hash = $2 WHERE id = $3';
      await client.query(put, [content, hashOf(content), sealed.id]);
      expect(await problems()).toEqual([expect.stringMatching(/event log/)]);
      await client.query(put, [row.content, row.hash, sealed.id]);
      expect(await problems()).toEqual([]);
    } finally {
      await client.query('ALTER TABLE stored_files ENABLE TRIGGER USER');
      await client.query('ALTER TABLE releases ENABLE TRIGGER USER');
      await client.end();
    }
  });

  it('is not returned, reviewed, corrected or released again', async () => {
    expect((await release()).json()).toMatchObject({ code: 'file-sealed' });
    const findings = [{ severity: 'minor', text: 'Late' }];
    expect((await quality.post(`/houses/${house.id}/return`, { findings })).json()).toMatchObject({
      code: 'file-sealed',
    });
    expect((await rater.post(`/houses/${house.id}/review-request`, {})).json()).toMatchObject({
      code: 'conflict',
    });
    const { updatedAt } = (await quality.get(`/houses/${house.id}`)).json<{ updatedAt: string }>();
    const office = await test.as('office');
    const change = await office.patch(`/houses/${house.id}`, { bedrooms: 3, expectedUpdatedAt: updatedAt });
    expect(change.json()).toMatchObject({ code: 'file-sealed' });
  });
});
