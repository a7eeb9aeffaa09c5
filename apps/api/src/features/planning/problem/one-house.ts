import type { Span } from '@countercheck/planning';
import type { VisitKind } from '@countercheck/prisma';
import type { LoadedVisit } from './load.ts';

/** A house is measured by one rater at a time; only the quality manager's visit may accompany another. */
const alone = ({ kind }: { kind: VisitKind }) => kind !== 'quality';
const inTurn: readonly VisitKind[] = ['rough', 'final', 'reinspection'];

/**
 * Of several visits that are asked for at one house the one that comes first; the others wait until it is booked,
 * since nobody knows before when it will be.
 */
export function waitingForAnother(visits: readonly LoadedVisit[]): Set<LoadedVisit> {
  const asked = visits.filter((each) => each.booked === null && alone(each));
  const later = asked.filter((each) =>
    asked.some(
      (other) => other.house.id === each.house.id && inTurn.indexOf(other.kind) < inTurn.indexOf(each.kind),
    ),
  );
  return new Set(later);
}

/** Spans without the times at which somebody measures in the house already, all in minutes of the plan. */
export function outside(windows: readonly Span[], taken: readonly Span[]): Span[] {
  return taken.reduce<Span[]>(
    (open, busy) =>
      open.flatMap(({ from, to }) =>
        [
          { from, to: Math.min(to, busy.from) },
          { from: Math.max(from, busy.to), to },
        ].filter((part) => part.to > part.from),
      ),
    [...windows],
  );
}
