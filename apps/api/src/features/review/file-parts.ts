import type { WholeFile } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { assessHouse, companyOptions, type AssessedHouse } from '../assessment/index.ts';
import { failedItemParts, presentFailedItem } from '../failed-items/index.ts';
import { inOrderTaken, presentReading, readingParts } from '../fieldwork/index.ts';
import { loadHouse } from '../houses/index.ts';
import { presentSubmission, submissionParts } from '../installers/index.ts';
import { presentPhoto, withFile } from '../photos/index.ts';
import { presentVisit, visitParts } from '../visits/index.ts';
import { presentReview, withFindings } from './present.ts';

function presentMeasured({ measured }: AssessedHouse): WholeFile['measured'] {
  return measured.map(({ readingId, values, steps, remarks, counts, whyNot }) => ({
    ...{ readingId, values, steps, remarks, counts, whyNot },
  }));
}

interface FileRows {
  visits: Parameters<typeof presentVisit>[0][];
  submissions: Parameters<typeof presentSubmission>[0][];
  readings: Parameters<typeof presentReading>[0][];
  photos: Parameters<typeof presentPhoto>[0][];
  failedItems: Parameters<typeof presentFailedItem>[0][];
  reviews: Parameters<typeof presentReview>[0][];
}

/** The rows of one house as its file tells them. */
export function recordsOf(rows: FileRows, assessed: AssessedHouse, timezone: string) {
  return {
    visits: rows.visits.map(presentVisit),
    submissions: rows.submissions.map(presentSubmission),
    readings: rows.readings.map((row) => presentReading(row, timezone)),
    photos: rows.photos.map(presentPhoto),
    verdicts: assessed.scorecard.verdicts as unknown as WholeFile['verdicts'],
    measured: presentMeasured(assessed),
    failedItems: rows.failedItems.map(presentFailedItem),
    reviews: rows.reviews.map(presentReview),
  };
}

/** The records of a house and what they come to now: what the quality manager reads, and what a release seals. */
export async function fileParts(db: Db, actor: UserActor, houseId: string) {
  const { timezone } = await companyOptions(db);
  const house = await loadHouse(db, actor, houseId);
  const visits = await db.visit.findMany({
    where: { houseId },
    include: visitParts,
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  });
  const submissions = await db.installerSubmission.findMany({
    where: { houseId },
    include: submissionParts,
    orderBy: { revision: 'desc' },
  });
  // A re-test is compared with the file, not a part of it.
  const first = { kind: { not: 'quality' as const } };
  const readings = await db.reading.findMany({
    where: { houseId, visit: first },
    include: readingParts,
    orderBy: inOrderTaken,
  });
  const inOrder = [{ addedAt: 'asc' as const }, { id: 'asc' as const }];
  const photos = await db.attachment.findMany({
    where: { houseId, OR: [{ visitId: null }, { visit: first }] },
    include: withFile,
    orderBy: inOrder,
  });
  const failedItems = await db.failedItem.findMany({
    where: { houseId },
    include: failedItemParts,
    orderBy: [{ openedAt: 'asc' }, { id: 'asc' }],
  });
  const reviews = await db.review.findMany({
    where: { houseId },
    include: withFindings,
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  });
  const assessed = await assessHouse(db, houseId);
  const rows = { visits, submissions, readings, photos, failedItems, reviews };
  return { assessed, records: { house, ...recordsOf(rows, assessed, timezone) } };
}
