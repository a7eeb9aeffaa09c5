import { fileProblems } from '@countercheck/assessment';
import type { ItemVerdict, Scorecard } from '@countercheck/rules';
import type { Db } from '../../kernel/database/database.ts';
import type { FieldProblem } from '../../kernel/problems/app-error.ts';
import { verdictKey, type AssessedHouse } from '../assessment/index.ts';
import { readingsAgainstLog } from './against-log.ts';

export interface Difference {
  item: string;
  subjectId: string;
  stored: string;
  again: string;
  /** the verdict itself changed, not only the words about it */
  decisive: boolean;
}

/** Where the stored verdicts are not those that the raw readings give now. */
export async function differencesOf(
  db: Db,
  houseId: string,
  verdicts: readonly ItemVerdict[],
): Promise<Difference[]> {
  const rows = await db.itemResult.findMany({ where: { houseId }, omit: { verdict: true } });
  // A house that nothing was ever done to has no stored verdicts that could be wrong.
  if (rows.length === 0) return [];
  const stored = new Map(rows.map((row) => [verdictKey(row), row]));
  const keys = new Set([...stored.keys(), ...verdicts.map(verdictKey)]);
  return [...keys].flatMap((key) => {
    const before = stored.get(key);
    const now = verdicts.find((each) => verdictKey(each) === key);
    if (before?.status === now?.status && before?.reason === now?.reason) return [];
    const said = (each: { status: string; reason: string } | undefined) =>
      each ? `${each.status}: ${each.reason}` : 'none';
    const { item, subjectId } = (now ?? before)!;
    const decisive = before?.status !== now?.status;
    return [{ item, subjectId, stored: said(before), again: said(now), decisive }];
  });
}

function verdictsHolding({ verdicts }: Scorecard): FieldProblem[] {
  return verdicts.flatMap((each) => {
    if (each.status !== 'waiting' && each.status !== 'fail') return [];
    const kind = `${each.safety ? 'Safety: ' : ''}${each.title}, ${each.subjectLabel}`;
    return [
      {
        path: verdictKey(each),
        message: `${kind} ${each.status === 'fail' ? 'fails' : 'waits'}: ${each.reason}`,
      },
    ];
  });
}

/** Everything that holds the release of a house, in words; each can be looked up under its path. */
export async function holdingOf(
  db: Db,
  house: { id: string; revision: number },
  { scorecard, file }: Pick<AssessedHouse, 'scorecard' | 'file'>,
  differences: readonly Difference[],
): Promise<FieldProblem[]> {
  const houseId = house.id;
  const holding = [...verdictsHolding(scorecard), ...(await readingsAgainstLog(db, houseId))];
  // A bedroom that the file forgot would otherwise never be missed.
  for (const message of fileProblems(file)) holding.push({ path: 'house', message });
  if (scorecard.verdicts.length === 0) holding.push({ path: 'verdicts', message: 'Nothing was verified.' });
  for (const words of scorecard.stopWork) holding.push({ path: 'stopWork', message: `Stop work: ${words}` });

  const failed = await db.failedItem.findMany({ where: { houseId, state: { not: 'closed' } } });
  for (const { id, title, subjectLabel } of failed)
    holding.push({
      path: `failedItems.${id}`,
      message: `${title}, ${subjectLabel} is still open as a failed item.`,
    });

  const findings = await db.reviewFinding.findMany({
    where: { review: { houseId, revision: house.revision }, severity: 'major', answeredAt: null },
  });
  for (const { id, text } of findings)
    holding.push({ path: `findings.${id}`, message: `A major finding is not answered: ${text}` });

  const visits = await db.visit.count({ where: { houseId, state: { in: ['booked', 'in_progress'] } } });
  if (visits > 0)
    holding.push({
      path: 'visits',
      message: `${visits === 1 ? 'A visit is' : `${visits} visits are`} still open.`,
    });

  for (const { item, subjectId, stored, again, decisive } of differences)
    if (decisive)
      holding.push({
        path: verdictKey({ item, subjectId }),
        message: `The verdict on ${item} was stored as “${stored}” and is “${again}” when computed again.`,
      });
  return holding;
}
