import type { ItemVerdict, Scorecard } from '@countercheck/rules';

/** One item to be looked at again on one subject after a correction. */
export interface Revisit {
  item: string;
  subjectId: string;
  title: string;
  subjectLabel: string;
  /** it failed itself, or its result hangs on readings of one that did */
  because: 'failed' | 'depends';
  /** the failed items it depends on; empty for a failed one */
  dependsOn: string[];
}

function touches(one: ItemVerdict, other: ItemVerdict): boolean {
  return one.subjectId === other.subjectId || one.subjectKind === 'house' || other.subjectKind === 'house';
}

/**
 * What a reinspection has to look at: every failed item, and every item whose verdict rests on readings of a
 * failed item, also through a third one. Items that do not apply stay out. In the order of the scorecard.
 */
export function itemsToRevisit(scorecard: Scorecard): Revisit[] {
  const verdicts = scorecard.verdicts.filter((each) => each.status !== 'not-applicable');
  const causes = new Map<ItemVerdict, Set<string>>();
  for (const each of verdicts) if (each.status === 'fail') causes.set(each, new Set());
  for (let grown = true; grown;) {
    grown = false;
    for (const each of verdicts) {
      if (causes.has(each)) continue;
      const sources = [...causes.keys()].filter(
        (cause) => each.dependsOn.includes(cause.item) && touches(each, cause),
      );
      if (sources.length === 0) continue;
      causes.set(each, new Set(sources.map((cause) => cause.item)));
      grown = true;
    }
  }
  return verdicts.flatMap((each): Revisit[] => {
    const because = causes.get(each);
    if (!because) return [];
    const { item, subjectId, title, subjectLabel } = each;
    const dependsOn = [...because].sort();
    return [
      {
        item,
        subjectId,
        title,
        subjectLabel,
        because: each.status === 'fail' ? 'failed' : 'depends',
        dependsOn,
      },
    ];
  });
}
