import { randomUUID } from 'node:crypto';
import { system } from '../../apps/api/src/kernel/actor.ts';
import type { Db } from '../../apps/api/src/kernel/database/database.ts';
import { record } from '../../apps/api/src/kernel/records/events.ts';
import { hashToken, newToken } from '../../apps/api/src/kernel/secrets/tokens.ts';
import type { TestApp } from '../support/app.ts';
import { addHouse } from '../support/fixture.ts';
import { sampledRecords } from './sampled-records.ts';

/** one point, as small as a photo gets */
const image = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);
const days = (count: number) => new Date(Date.now() + count * 86_400_000);
const emptyFilter = {
  from: null,
  to: null,
  builderId: null,
  communityId: null,
  stage: null,
  ruleSetId: null,
};
let hour = 24;

/** One record of every kind that a route asks about, all of the first builder and the first rater. */
export async function addRecords({ app, company }: TestApp) {
  const { house, builder, installer, users, ruleSet } = company;
  const as = <T>(work: (db: Db) => Promise<T>) => app.database.as(system, work);

  const visit = (houseId = house.id) => {
    hour += 3;
    const startsAt = new Date(Date.now() + hour * 3_600_000);
    const endsAt = new Date(startsAt.getTime() + 3_600_000);
    const { id: raterId } = users.rater;
    return as((db) => db.visit.create({ data: { houseId, raterId, kind: 'final', startsAt, endsAt } }));
  };
  const contact = () =>
    as((db) => db.builderContact.create({ data: { builderId: builder.id, name: 'New' } }));
  const link = async (more: object = {}) => {
    const token = newToken();
    const data = { houseId: house.id, installerId: installer.id, tokenHash: hashToken(token), ...more };
    const row = await as((db) => db.installerLink.create({ data: { expiresAt: days(9), ...data } }));
    return { id: row.id, token };
  };
  const asked = (kind: 'rough' | 'final') =>
    as(async (db) => {
      const open = await db.visitRequest.findFirst({ where: { houseId: house.id, kind, state: 'open' } });
      if (open) return open;
      const day = new Date('2026-12-01');
      return db.visitRequest.create({
        data: {
          ...{ houseId: house.id, kind, source: 'office', earliestOn: day, minutes: 60 },
          ...{ needs: { instruments: [], qualifications: [] }, askedByName: 'Office Desk' },
        },
      });
    });
  const visitRequest = await asked('final');
  const readinessLink = async () => {
    const token = newToken();
    const data = { requestId: visitRequest.id, name: 'Superintendent', tokenHash: hashToken(token) };
    const row = await as((db) => db.readinessLink.create({ data: { ...data, expiresAt: days(9) } }));
    return { id: row.id, token };
  };
  const dayOff = () => {
    const day = new Date('2098-12-24');
    const data = { fromOn: day, toOn: day, why: 'Holiday', byName: 'Office Desk' };
    return as((db) => db.dayOff.create({ data }));
  };
  const calendarToken = async () => {
    const token = newToken();
    const { id: userId } = users.rater;
    await as(async (db) => {
      await db.calendarFeed.updateMany({ where: { userId }, data: { revokedAt: new Date() } });
      await db.calendarFeed.create({ data: { userId, tokenHash: hashToken(token) } });
    });
    return token;
  };
  const mailToken = async () => {
    const token = newToken();
    const { id: contactId } = await contact();
    await as((db) => db.contactMailLink.create({ data: { contactId, tokenHash: hashToken(token) } }));
    return token;
  };
  const accessToken = async () => {
    const token = newToken();
    const data = { purpose: 'invitation' as const, userId: spare.id, tokenHash: hashToken(token) };
    await as((db) => db.accessToken.create({ data: { ...data, expiresAt: days(1) } }));
    return token;
  };
  const released = (lot: string) =>
    as(async (db) => {
      const row = await addHouse(db, ruleSet.id, builder, { lot, stage: 'released' });
      const { id, address } = row;
      const content = {
        house: { id, address, lot, community: { name: builder.communityName } },
        ruleSet: { ...ruleSet, title: 'As sealed' },
        verdicts: [],
      };
      const by = { releasedBy: users.quality.name, releasedById: users.quality.id };
      const data = { houseId: id, revision: 1, content, hash: 'not the question here', ...by };
      const { id: releaseId } = await db.release.create({ data });
      await record(db, system, null, {
        ...{ action: 'file released', recordType: 'release', recordId: releaseId, houseId: id },
        after: { revision: 1, hash: data.hash, resultHash: 'nor here' },
      });
      return { houseId: id, releaseId };
    });

  const spare = await as((db) =>
    db.user.create({ data: { email: 'spare@weir.example', name: 'Spare', role: 'office' } }),
  );
  const own = await visit();
  const failedItem = await as((db) =>
    db.failedItem.create({
      data: {
        ...{ houseId: house.id, item: 'duct-leakage-total', title: 'Duct leakage', subjectId: 'house' },
        ...{ subjectLabel: 'House', trade: 'hvac-installer', reason: 'Too much', correction: 'Seal it' },
        openedById: users.rater.id,
      },
    }),
  );
  const photo = await as(async (db) => {
    const bytes = new Uint8Array(image);
    const file = {
      sha256: randomUUID(),
      mediaType: 'image/png',
      size: bytes.length,
      bytes,
      thumbnail: bytes,
    };
    const { id: fileId } = await db.storedFile.create({ data: { ...file, width: 1, height: 1 } });
    const place = { houseId: house.id, visitId: own.id, failedItemId: failedItem.id };
    const by = { addedById: users.rater.id, addedByName: users.rater.name };
    return db.attachment.create({ data: { id: randomUUID(), fileId, ...place, ...by } });
  });
  const finding = await as(async (db) => {
    const by = { reviewerId: users.quality.id, reviewer: users.quality.name };
    const review = await db.review.create({
      data: { houseId: house.id, revision: 1, outcome: 'returned', ...by },
    });
    return db.reviewFinding.create({ data: { reviewId: review.id, severity: 'minor', text: 'Why?' } });
  });
  await as((db) =>
    db.reinspectionRequest.create({
      data: { houseId: house.id, askedById: users.builder.id, askedByName: users.builder.name },
    }),
  );

  const lookedBack = await as(async (db) => {
    const by = { askedById: users.quality.id, askedBy: users.quality.name, state: 'done' as const };
    const { id: replayId } = await db.backgroundRun.create({ data: { kind: 'replay', ...by } });
    await db.replay.create({ data: { id: replayId, ruleSetId: ruleSet.id, filter: emptyFilter } });
    const { id: recallId } = await db.backgroundRun.create({ data: { kind: 'recall', ...by } });
    const day = new Date('2026-03-01');
    const { id: instrumentId } = company.instruments.manometer;
    await db.recall.create({
      data: {
        ...{ id: recallId, instrumentId, fromOn: day, toOn: day, reason: 'Found in the workshop' },
        error: { kind: 'offset', value: 1 },
      },
    });
    const letter = { recallId, builderId: builder.id, houses: 1, subject: 'Draft', body: 'Draft' };
    const { id: letterId } = await db.recallLetter.create({ data: letter });
    const { id: signalRunId } = await db.backgroundRun.create({ data: { kind: 'signals', ...by } });
    await db.signalRun.create({ data: { id: signalRunId, fromOn: day, toOn: day } });
    const { id: signalId } = await db.signalFinding.create({
      data: {
        ...{
          runId: signalRunId,
          signal: 'pace',
          raterId: users.rater.id,
          sentence: 'x',
          looked: 9,
          p: 0,
          q: 0,
        },
        ...{
          houseIds: [house.id],
          evidence: { kind: 'none', xLabel: '', yLabel: '', columns: [], rows: [] },
        },
      },
    });
    const { id: planId } = await db.backgroundRun.create({ data: { kind: 'plan', ...by } });
    const { id: stopId } = await addPlan(db, planId, house.id, users.rater.id);
    return { replayId, recallId, letterId, signalRunId, signalId, planId, stopId };
  });

  const { id: uploadId } = await as((db) =>
    db.photoUpload.create({
      data: {
        ...{ id: randomUUID(), visitId: own.id, addedById: users.rater.id },
        ...{ size: 10, sha256: '0'.repeat(64) },
      },
    }),
  );
  const quality = await as(async (db) => {
    const { rater, quality: manager } = users;
    const ordered = { houseId: house.id, raterId: rater.id, source: 'manual' as const, dueOn: days(9) };
    const by = { orderedById: manager.id, orderedBy: manager.name };
    const open = await db.fileReview.create({ data: { ...ordered, ...by, revision: 1 } });
    const done = await db.fileReview.create({
      data: {
        ...{ ...ordered, ...by, revision: 1, reviewerId: manager.id, state: 'done', outcome: 'findings' },
        doneAt: new Date(),
      },
    });
    const fileFinding = await db.fileReviewFinding.create({
      data: {
        ...{ fileReviewId: done.id, step: 'check:house', check: 'house', severity: 'minor', text: 'Area?' },
        ...{ responsibleId: rater.id, dueOn: days(9), raisedById: manager.id, raisedBy: manager.name },
      },
    });
    const retest = await db.retest.create({ data: { ...ordered, ...by } });
    const action = await db.correctiveAction.create({
      data: {
        ...{ subject: 'rater', raterId: rater.id, cause: 'Copied', action: 'Taught', cleanFilesNeeded: 3 },
        ...{ effectivenessDueOn: days(30), openedById: manager.id, openedBy: manager.name },
      },
    });
    const shown = { correctiveActionId: action.id, text: 'Taught', fileId: photo.fileId };
    const evidence = await db.correctiveEvidence.create({
      data: { ...shown, addedById: manager.id, addedBy: manager.name },
    });
    const hold = await db.raterHold.create({
      data: {
        ...{ raterId: rater.id, from: new Date('2099-01-01'), reason: 'x', correctiveActionId: action.id },
        ...{ placedById: manager.id, placedBy: manager.name },
      },
    });
    return {
      ...{ reviewId: open.id, fileFindingId: fileFinding.id, retestId: retest.id },
      ...{ correctiveId: action.id, evidenceId: evidence.id, holdId: hold.id },
    };
  });

  return {
    ...lookedBack,
    ...quality,
    ...(await as((db) => sampledRecords(db, company))),
    ...{
      uploadId,
      company,
      image,
      spare,
      own,
      failedItem,
      photo,
      finding,
      visit,
      contact,
      link,
      accessToken,
    },
    ...{ asked, visitRequest, readinessLink, dayOff, calendarToken, mailToken },
    openLink: await link(),
    sealed: await released('12'),
    sealedToOpen: await released('13'),
    /** what a user of another builder must never find in an answer */
    secrets: [house.id, builder.id, builder.name, own.id, failedItem.id, photo.id],
  };
}
export type Records = Awaited<ReturnType<typeof addRecords>>;

/** A plan that proposes a time long past, so that whoever accepts it is refused by the deed. */
async function addPlan(db: Db, id: string, houseId: string, raterId: string) {
  const day = new Date('2026-03-02');
  await db.weekPlan.create({ data: { id, fromOn: day, toOn: day, seconds: 1 } });
  const times = { startsAt: new Date('2026-03-02T15:00:00Z'), endsAt: new Date('2026-03-02T16:00:00Z') };
  const way = { driveMinutes: 1, driveKm: 1, latitude: 41, longitude: -91 };
  return db.plannedVisit.create({
    data: { ...{ planId: id, state: 'proposed', raterId, houseId, kind: 'final' }, ...times, ...way },
  });
}
