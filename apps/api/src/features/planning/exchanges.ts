import type { PlannedVisit } from '@countercheck/prisma';

export type Moving = Pick<
  PlannedVisit,
  'raterId' | 'startsAt' | 'endsAt' | 'beforeRaterId' | 'beforeStartsAt' | 'beforeEndsAt'
>;

/** Whether one stands today where another is to go. */
const blocks = (one: Moving, other: Moving) =>
  one !== other &&
  one.beforeRaterId === other.raterId &&
  one.beforeStartsAt !== null &&
  one.beforeEndsAt !== null &&
  one.beforeStartsAt < other.endsAt &&
  one.beforeEndsAt > other.startsAt;

/**
 * Groups of moves of which none can go first because each waits for another one: with a move, all that have to go
 * so that it can. Small groups come first; each group stands there once. Moves that wait for nobody of the list,
 * or for somebody who could go alone, are in none.
 */
export function exchanges<M extends Moving>(moves: readonly M[]): M[][] {
  const groups = new Map<string, M[]>();
  for (const move of moves) {
    const group = new Set<M>();
    const open = [move];
    for (let next = open.pop(); next; next = open.pop())
      for (const other of moves)
        if (blocks(other, next) && !group.has(other)) {
          group.add(other);
          open.push(other);
        }
    if (!group.has(move)) continue;
    const members = moves.filter((each) => group.has(each));
    groups.set(members.map((each) => moves.indexOf(each)).join(), members);
  }
  return [...groups.values()].sort((a, b) => a.length - b.length);
}
