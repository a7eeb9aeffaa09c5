import type { Photo } from '../figures.ts';

/** Where a picture stands as well. */
export interface Elsewhere {
  houseId: string;
  raterId: string;
  /** it was there before */
  earlier: boolean;
}

type Placed = Pick<Photo, 'id' | 'houseId' | 'raterId' | 'addedAt'>;

/**
 * For each photo the other houses whose files hold the same picture. Pairs within one house say nothing and are left
 * out, as are those of photos that are not known. Never throws.
 */
export function elsewhere(
  pairs: readonly (readonly [string, string])[],
  known: ReadonlyMap<string, Placed>,
): Map<string, Elsewhere[]> {
  const found = new Map<string, Elsewhere[]>();
  const note = (photo: Placed, other: Placed, earlier: boolean) => {
    const { houseId, raterId } = other;
    found.set(photo.id, [...(found.get(photo.id) ?? []), { houseId, raterId, earlier }]);
  };
  for (const [one, two] of pairs) {
    const [a, b] = [known.get(one), known.get(two)];
    if (!a || !b || a.houseId === b.houseId) continue;
    const later = a.addedAt - b.addedAt || (a.id < b.id ? -1 : 1);
    note(a, b, later > 0);
    note(b, a, later < 0);
  }
  return found;
}
