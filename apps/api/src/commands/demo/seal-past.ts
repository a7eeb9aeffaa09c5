import { randomUUID } from 'node:crypto';
import { assess } from '@countercheck/assessment';
import type { Prisma } from '@countercheck/prisma';
import type { SealedFile, YearStory } from '@countercheck/prisma/demo';
import { companyOptions, compiledRuleSet } from '../../features/assessment/index.ts';
import { keepFacts } from '../../features/assessment/facts.ts';
import { loadHouseFiles } from '../../features/assessment/load-file.ts';
import { asStored } from '../../features/assessment/stored-verdicts.ts';
import { failedItemParts } from '../../features/failed-items/index.ts';
import { inOrderTaken, readingParts } from '../../features/fieldwork/index.ts';
import { houseDetailInclude, presentHouse } from '../../features/houses/present.ts';
import { submissionParts } from '../../features/installers/index.ts';
import { recordsOf } from '../../features/review/file-parts.ts';
import { contentOf, hashOf } from '../../features/review/seal.ts';
import { visitParts } from '../../features/visits/index.ts';
import type { Db } from '../../kernel/database/database.ts';
import { software } from '../../kernel/versions/software.ts';

const housesAtOnce = 50;

function byHouse<T extends { houseId: string }>(rows: T[]): (houseId: string) => T[] {
  const groups = new Map<string, T[]>();
  for (const row of rows) groups.set(row.houseId, [...(groups.get(row.houseId) ?? []), row]);
  return (houseId) => groups.get(houseId) ?? [];
}

/** What the files of these houses hold, in the order of a file. */
async function readRows(db: Db, ids: string[]) {
  const where = { houseId: { in: ids } };
  const visits = await db.visit.findMany({
    ...{ where, include: visitParts },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  });
  const submissions = await db.installerSubmission.findMany({ where, include: submissionParts });
  const readings = await db.reading.findMany({ where, include: readingParts, orderBy: inOrderTaken });
  const failedItems = await db.failedItem.findMany({
    ...{ where, include: failedItemParts },
    orderBy: [{ openedAt: 'asc' }, { id: 'asc' }],
  });
  const of = {
    visits: byHouse(visits),
    submissions: byHouse(submissions),
    readings: byHouse(readings),
    failedItems: byHouse(failedItems),
  };
  return (id: string) => ({
    visits: of.visits(id),
    submissions: of.submissions(id),
    readings: of.readings(id),
    failedItems: of.failedItems(id),
    photos: [],
    reviews: [],
  });
}

/**
 * Seals files of the past as a release does, each at its own time, in few statements: one assessment of each
 * house gives its verdicts, its facts and the sealed content. Nobody is told; that was long ago.
 */
export async function sealPast(
  db: Db,
  reviewer: { id: string; name: string },
  year: YearStory[],
): Promise<SealedFile[]> {
  const { timezone } = await companyOptions(db);
  const made = await software();
  const sealed: SealedFile[] = [];
  for (let from = 0; from < year.length; from += housesAtOnce) {
    const some = year.slice(from, from + housesAtOnce);
    const releasedAt = new Map(some.map((story) => [story.house.id, story.releasedAt]));
    const ids = [...releasedAt.keys()];
    const houses = await db.house.findMany({ where: { id: { in: ids } }, include: houseDetailInclude });
    const files = await loadHouseFiles(db, ids);
    const rowsOf = await readRows(db, ids);
    const releases: Prisma.ReleaseCreateManyInput[] = [];
    const results: Prisma.ItemResultCreateManyInput[] = [];
    for (const house of houses) {
      const houseId = house.id;
      const at = releasedAt.get(houseId)!;
      const file = files.get(houseId)!;
      const ruleSet = await compiledRuleSet(db, house.ruleSetId);
      const assessed = { file, ruleSet, ...assess(file, ruleSet.evaluate) };
      await keepFacts(db, houseId, file);
      for (const verdict of assessed.scorecard.verdicts) {
        const { item, subjectId, status, reason } = verdict;
        results.push({
          houseId,
          item,
          subjectId,
          status,
          reason,
          verdict: asStored(verdict),
          computedAt: at,
        });
      }
      const records = {
        house: presentHouse(house, assessed.scorecard.counts),
        ...recordsOf(rowsOf(houseId), assessed, timezone),
      };
      const content = contentOf({ assessed, records }, { by: reviewer.name, note: null }, made);
      const hash = hashOf(content);
      const releaseId = randomUUID();
      releases.push({
        ...{ id: releaseId, houseId, revision: 1, content, hash },
        ...{ releasedAt: at, releasedBy: reviewer.name, releasedById: reviewer.id },
      });
      sealed.push({ releaseId, houseId, at, hash });
    }
    await db.itemResult.createMany({ data: results });
    await db.release.createMany({ data: releases });
  }
  await db.review.createMany({
    data: sealed.map(({ houseId, at }) => ({
      ...{ houseId, at, revision: 1, outcome: 'released' as const },
      ...{ reviewerId: reviewer.id, reviewer: reviewer.name },
    })),
  });
  await db.$executeRaw`
    UPDATE houses h SET stage = 'released', updated_at = r.released_at FROM releases r
    WHERE r.house_id = h.id AND h.id = ANY(${sealed.map(({ houseId }) => houseId)}::uuid[])`;
  return sealed;
}
