/** A finished file review, as it counts for a corrective action. */
export interface FinishedReview {
  doneAt: Date;
  outcome: 'clean' | 'findings';
}

const notClean = ({ outcome }: FinishedReview) => (outcome === 'clean' ? 0 : 1);

/**
 * Clean files in a row since an action began, newest back to the first that was not clean: a finding begins the
 * count anew, also one of the same instant. Reviews finished before `since` do not count. A count; never throws. Common practice, no published
 * source.
 */
export function cleanInARow(reviews: readonly FinishedReview[], since: Date): number {
  const counted = reviews
    .filter(({ doneAt }) => doneAt.getTime() >= since.getTime())
    .sort((a, b) => b.doneAt.getTime() - a.doneAt.getTime() || notClean(b) - notClean(a));
  const broken = counted.findIndex(({ outcome }) => outcome !== 'clean');
  return broken === -1 ? counted.length : broken;
}
