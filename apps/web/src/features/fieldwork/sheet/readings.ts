import type { Reading } from '@countercheck/contracts';

type Linked = Pick<Reading, 'id' | 'supersedesId' | 'supersededById' | 'test' | 'subjectId' | 'takenAt'>;

/** The readings that stand for a test on a subject, oldest first. */
export function standing<R extends Linked>(readings: readonly R[], test: string, subjectId: string): R[] {
  return readings
    .filter((each) => each.test === test && each.subjectId === subjectId && each.supersededById === null)
    .sort((a, b) => a.takenAt.localeCompare(b.takenAt));
}

/** What a reading replaced, the newest first. A reading that names itself or a loop ends the chain. */
export function replacedBy<R extends Linked>(reading: R, readings: readonly R[]): R[] {
  const chain: R[] = [];
  let next = reading.supersedesId;
  while (next !== null) {
    const found = readings.find(({ id }) => id === next);
    if (!found || found === reading || chain.includes(found)) break;
    chain.push(found);
    next = found.supersedesId;
  }
  return chain;
}
