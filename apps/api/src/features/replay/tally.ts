import type { Change, Compared } from './compare.ts';

export interface Counted {
  houses: number;
  changed: number;
  more: number;
  fewer: number;
}
interface CountedChange extends Omit<Change, 'subjectLabel'> {
  count: number;
}

/** What a replay counts while it goes through the houses; plain data, so that workers can send it. */
export interface Tally extends Counted {
  affected: number;
  reinspectionsBefore: number;
  reinspectionsAfter: number;
  unreadable: number;
  items: Map<string, CountedChange>;
  /** by id; '' = nobody */
  builders: Map<string, Counted>;
  raters: Map<string, Counted>;
}

const nothing = (): Counted => ({ houses: 0, changed: 0, more: 0, fewer: 0 });

export const emptyTally = (): Tally => ({
  ...nothing(),
  affected: 0,
  reinspectionsBefore: 0,
  reinspectionsAfter: 0,
  unreadable: 0,
  items: new Map(),
  builders: new Map(),
  raters: new Map(),
});

function at(map: Map<string, Counted>, id: string): Counted {
  const known = map.get(id) ?? nothing();
  map.set(id, known);
  return known;
}

function addCounted(into: Counted, { houses, changed, more, fewer }: Counted): void {
  into.houses += houses;
  into.changed += changed;
  into.more += more;
  into.fewer += fewer;
}

function addChange(
  tally: Tally,
  { item, title, before, after }: Omit<CountedChange, 'count'>,
  count: number,
) {
  const key = `${item} ${before} ${after}`;
  const known = tally.items.get(key);
  if (known) known.count += count;
  else tally.items.set(key, { item, title, before, after, count });
}

/** One more reinspection, one fewer, or as it was. */
export const reinspectionsOf = ({ reinspectionBefore, reinspectionAfter }: Compared) =>
  Number(reinspectionAfter) - Number(reinspectionBefore);

/** Counts one house. */
export function countHouse(tally: Tally, house: Compared, builderId: string, raterId: string | null): void {
  const difference = reinspectionsOf(house);
  const own: Counted = {
    houses: 1,
    changed: house.changes.length,
    more: Number(difference > 0),
    fewer: Number(difference < 0),
  };
  for (const into of [tally, at(tally.builders, builderId), at(tally.raters, raterId ?? '')])
    addCounted(into, own);
  tally.affected += Number(house.changes.length > 0 || difference !== 0);
  tally.reinspectionsBefore += Number(house.reinspectionBefore);
  tally.reinspectionsAfter += Number(house.reinspectionAfter);
  for (const each of house.changes) addChange(tally, each, 1);
}

/** Adds what another worker has counted. */
export function addTally(into: Tally, other: Tally): void {
  addCounted(into, other);
  into.affected += other.affected;
  into.reinspectionsBefore += other.reinspectionsBefore;
  into.reinspectionsAfter += other.reinspectionsAfter;
  into.unreadable += other.unreadable;
  for (const each of other.items.values()) addChange(into, each, each.count);
  for (const [id, counted] of other.builders) addCounted(at(into.builders, id), counted);
  for (const [id, counted] of other.raters) addCounted(at(into.raters, id), counted);
}
