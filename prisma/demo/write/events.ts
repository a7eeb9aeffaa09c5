import { eventContent, type EventFields } from '@countercheck/seal';
import { Prisma } from '../../generated/client.ts';
import type { Story } from '../stories.ts';
import type { Cast } from './people.ts';

type Db = Prisma.TransactionClient;

/** A file of the past that was released, and the hash of what was sealed. */
export interface SealedFile {
  releaseId: string;
  houseId: string;
  at: Date;
  hash: string;
}

/** The log as the people would have written it, in the order of time. */
export async function writeEvents(db: Db, stories: Story[], cast: Cast, sealed: SealedFile[]): Promise<void> {
  const rows: EventFields[] = [];
  for (const {
    house,
    registeredAt,
    linkSentAt,
    figures,
    installer,
    visits,
    failed,
    askedAt,
    returnedAt,
    builder,
  } of stories) {
    const houseId = house.id;
    const add = (
      at: Date,
      kind: string,
      actor: { id: string; name: string },
      action: string,
      recordType = 'house',
      recordId = houseId,
      after?: object,
    ) =>
      rows.push({
        at,
        actorKind: kind,
        actorId: actor.id,
        actorName: actor.name,
        action,
        recordType,
        recordId,
        houseId,
        before: null,
        after: after ? (JSON.parse(JSON.stringify(after)) as unknown) : null,
        reason: null,
        requestId: null,
      });
    const owner = { id: cast.builders[builder]!.userId, name: cast.builders[builder]!.userName };
    add(registeredAt, 'office', cast.office, 'house registered');
    add(linkSentAt, 'office', cast.office, 'link sent');
    if (figures)
      add(
        figures.signedAt,
        'installer',
        cast.installers[installer]!,
        'figures signed',
        'submission',
        houseId,
        figures.bySubject,
      );
    for (const visit of visits) {
      const rater = cast.raters[visit.rater]!;
      add(
        new Date(Math.min(visit.startsAt.getTime() - 86_400_000, Date.now())),
        'office',
        cast.office,
        'visit booked',
        'visit',
        visit.id,
        { startsAt: visit.startsAt, rater: rater.name },
      );
      if (visit.readings[0]) add(visit.readings[0].takenAt, 'rater', rater, 'visit begun', 'visit', visit.id);
      for (const { file, takenAt, supersedesId } of visit.readings)
        add(
          takenAt,
          'rater',
          rater,
          supersedesId ? 'reading superseded' : 'reading recorded',
          'reading',
          file.id,
          { test: file.test, subjectId: file.subjectId, raw: file.raw },
        );
      if (visit.submittedAt) add(visit.submittedAt, 'rater', rater, 'visit submitted', 'visit', visit.id);
    }
    for (const { verdict, correctedAt } of failed) {
      const first = visits[0]!;
      add(
        first.submittedAt!,
        'rater',
        cast.raters[first.rater]!,
        'item failed',
        'item',
        `${verdict.item}/${verdict.subjectId}`,
        { reason: verdict.reason },
      );
      if (correctedAt)
        add(correctedAt, 'builder', owner, 'item corrected', 'item', `${verdict.item}/${verdict.subjectId}`);
    }
    if (askedAt) add(askedAt, 'builder', owner, 'reinspection asked');
    if (returnedAt) add(returnedAt, 'quality', cast.quality, 'file returned');
  }
  for (const { releaseId, houseId, at, hash } of sealed) {
    const release = {
      ...{ at, actorKind: 'quality', actorId: cast.quality.id, actorName: cast.quality.name },
      ...{ houseId, reason: null, requestId: null },
    };
    rows.push(
      {
        ...release,
        ...{ action: 'file released', recordType: 'release', recordId: releaseId, before: null },
        after: { revision: 1, hash },
      },
      {
        ...release,
        ...{ action: 'stage changed', recordType: 'house', recordId: houseId },
        before: { stage: 'in_review' },
        after: { stage: 'released' },
      },
    );
  }
  rows.sort((a, b) => Number(a.at) - Number(b.at));
  for (let i = 0; i < rows.length; i += 1000)
    await db.event.createMany({
      data: rows.slice(i, i + 1000).map((row) => ({
        ...row,
        before: row.before === null ? Prisma.DbNull : (row.before as Prisma.InputJsonValue),
        after: row.after === null ? Prisma.DbNull : (row.after as Prisma.InputJsonValue),
        content: eventContent(row),
      })),
    });
}
