import * as z from 'zod';
import { figureDifferences, type AutomaticCheck } from '@countercheck/quality';
import type { Db } from '../../../kernel/database/database.ts';
import { differencesOf, hashOf } from '../../review/index.ts';
import type { ReviewedFile } from './file.ts';

export interface AutomaticFinding {
  check: AutomaticCheck;
  step: string;
  text: string;
}

/** What the comparison takes out of a sealed content; a content of another form is a finding, not an error. */
const sealedSchema = z.object({
  measured: z.array(
    z.object({
      readingId: z.string(),
      values: z.array(z.object({ key: z.string(), label: z.string(), value: z.number(), unit: z.string() })),
    }),
  ),
  verdicts: z.array(
    z.object({
      item: z.string(),
      subjectId: z.string(),
      subjectLabel: z.string(),
      title: z.string(),
      status: z.string(),
    }),
  ),
});

const shown = (value: number | null, unit: string) =>
  value === null ? 'nothing' : `${String(Number(value.toPrecision(6)))} ${unit}`.trim();

async function againstSeal(
  db: Db,
  review: { houseId: string; revision: number },
  { records, assessed }: ReviewedFile,
): Promise<AutomaticFinding[]> {
  const release = await db.release.findFirst({
    where: { houseId: review.houseId, revision: { lte: review.revision } },
    orderBy: { revision: 'desc' },
  });
  // An earlier revision says nothing about a file that was opened again.
  if (!release || release.revision !== records.house.revision) return [];
  const found: AutomaticFinding[] = [];
  if (hashOf(release.content) !== release.hash)
    found.push({
      check: 'seal',
      step: 'check:seal',
      text: 'The sealed content no longer has the hash that it was released with.',
    });
  const sealed = sealedSchema.safeParse(release.content);
  if (!sealed.success) {
    found.push({ check: 'seal', step: 'check:seal', text: 'The sealed content cannot be read.' });
    return found;
  }
  for (const { readingId, label, unit, released, again } of figureDifferences(
    sealed.data.measured,
    records.measured,
  ))
    found.push({
      check: 'recomputed',
      step: `reading:${readingId}`,
      text: `${label}: released as ${shown(released, unit)}, the raw reading gives ${shown(again, unit)}.`,
    });
  const now = new Map(
    assessed.scorecard.verdicts.map((each) => [`${each.item}/${each.subjectId}`, each.status as string]),
  );
  for (const { item, subjectId, subjectLabel, title, status } of sealed.data.verdicts) {
    const again = now.get(`${item}/${subjectId}`) ?? 'none';
    if (again !== status)
      found.push({
        check: 'recomputed',
        step: 'check:recomputed',
        text: `${title}, ${subjectLabel}: released as ${status}, computed again it is ${again}.`,
      });
  }
  return found;
}

/** A reading that decides nothing because its instrument was out of calibration, and no other took its place. */
function outOfCalibration({ assessed }: ReviewedFile): AutomaticFinding[] {
  const counted = new Set(
    assessed.measured.filter(({ counts }) => counts).map(({ test, subjectId }) => `${test}/${subjectId}`),
  );
  return assessed.measured.flatMap(({ readingId, test, subjectId, counts, problems, whyNot }) => {
    if (counts || problems.length > 0 || counted.has(`${test}/${subjectId}`)) return [];
    return [
      { check: 'calibration' as const, step: `reading:${readingId}`, text: whyNot ?? 'Out of calibration.' },
    ];
  });
}

/** Everything in a file that the computation itself finds: stored, released and raw do not say the same. */
export async function automaticFindings(
  db: Db,
  review: { houseId: string; revision: number },
  file: ReviewedFile,
): Promise<AutomaticFinding[]> {
  const stored = await differencesOf(db, review.houseId, file.assessed.scorecard.verdicts);
  const differing = stored.map(({ item, stored: before, again }) => ({
    check: 'recomputed' as const,
    step: 'check:recomputed',
    text: `${item.replaceAll('-', ' ')}: stored as “${before}”, computed again it is “${again}”.`,
  }));
  const all = [...(await againstSeal(db, review, file)), ...differing, ...outOfCalibration(file)];
  const seen = new Set<string>();
  return all.filter(({ step, text }) => {
    const key = `${step}/${text}`;
    return seen.has(key) ? false : Boolean(seen.add(key));
  });
}
