import { kilometresBetween } from '@countercheck/planning';
import type { Place } from './visit.ts';

/**
 * Minutes by car from one house to the next: the distance as the crow flies, made longer by the circuity (at least
 * 1), at the speed, km/h. Whole minutes, rounded up; not-a-number gives not-a-number.
 */
export function minutesBetween(
  from: Place,
  to: Place,
  { circuity, speed }: { circuity: number; speed: number },
): number {
  return Math.ceil(((kilometresBetween(from, to) * circuity) / speed) * 60);
}
