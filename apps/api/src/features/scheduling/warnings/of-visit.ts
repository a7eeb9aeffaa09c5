import type { VisitWarning } from '@countercheck/contracts';
import { dayAt } from '../../assessment/index.ts';
import { aboutInstruments } from './instruments.ts';
import { aboutPeople } from './people.ts';
import { aboutTimes } from './times.ts';
import type { Surroundings, WarnedVisit } from './visit.ts';

/**
 * What is doubtful about a visit, in words. None of it keeps it from being booked: whether a rater is in two places
 * at once is refused by the database, and one who is held by the quality manager is refused at booking.
 */
export function visitWarnings(visit: WarnedVisit, around: Surroundings): VisitWarning[] {
  const day = dayAt(visit.startsAt, around.timezone);
  return [
    ...aboutTimes(visit, around, day),
    ...aboutPeople(visit, around, day),
    ...aboutInstruments(visit, around, day),
  ];
}
