import type { BoardVisit, Visit, VisitRequest } from '@countercheck/contracts';

/** What is to be put somewhere: a request that waits, or a visit that is booked. */
export type Thing = { request: VisitRequest } | { visit: Visit };

export interface Placing {
  thing: Thing;
  raterId: string | null;
  day: string;
  start: string;
  end: string;
}

export const houseOf = (thing: Thing) => ('request' in thing ? thing.request.house : thing.visit.house);
export const kindOf = (thing: Thing) => ('request' in thing ? thing.request.kind : thing.visit.kind);

/** Minutes that a thing takes on the board. */
export const minutesOf = (thing: Thing) =>
  'request' in thing
    ? thing.request.minutes
    : Math.round((Date.parse(thing.visit.endsAt) - Date.parse(thing.visit.startsAt)) / 60_000);

/** Only what has not begun can be moved. */
export const movable = ({ visit }: BoardVisit) => visit.state === 'booked';
