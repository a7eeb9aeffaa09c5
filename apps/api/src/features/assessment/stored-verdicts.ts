import { isDeepStrictEqual } from 'node:util';
import type { ItemVerdict } from '@countercheck/rules';
import type { ItemResult } from '@countercheck/prisma';

type Stored = Pick<ItemResult, 'id' | 'item' | 'subjectId' | 'status' | 'reason' | 'verdict'>;

export interface VerdictChange {
  stored: Stored | null;
  verdict: ItemVerdict | null;
}

export const verdictKey = ({ item, subjectId }: { item: string; subjectId: string }) =>
  `${item}/${subjectId}`;

/** As the database would give it back: without what is undefined. */
export const asStored = (verdict: ItemVerdict) => JSON.parse(JSON.stringify(verdict)) as object;

/** Where the verdicts worked out now are not those in the database. */
export function verdictChanges(stored: readonly Stored[], verdicts: readonly ItemVerdict[]): VerdictChange[] {
  const known = new Map(stored.map((row) => [verdictKey(row), row]));
  const changes: VerdictChange[] = [];
  for (const verdict of verdicts) {
    const row = known.get(verdictKey(verdict)) ?? null;
    known.delete(verdictKey(verdict));
    if (!row || !isDeepStrictEqual(row.verdict, asStored(verdict))) changes.push({ stored: row, verdict });
  }
  for (const row of known.values()) changes.push({ stored: row, verdict: null });
  return changes;
}
