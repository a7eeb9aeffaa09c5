import type { Place } from './visit.ts';

/** Mean radius of the earth, (2a + b) / 3 of the WGS 84 ellipsoid, km (from memory). */
const earthRadius = 6371.0088;

/** Kilometres as the crow flies on a sphere, by the haversine formula, which keeps its digits for near points. */
function crowKilometres(one: Place, other: Place): number {
  const radians = Math.PI / 180;
  const north = Math.sin(((other.latitude - one.latitude) * radians) / 2) ** 2;
  const east = Math.sin(((other.longitude - one.longitude) * radians) / 2) ** 2;
  const chord = north + Math.cos(one.latitude * radians) * Math.cos(other.latitude * radians) * east;
  return 2 * earthRadius * Math.asin(Math.min(1, Math.sqrt(chord)));
}

/**
 * Minutes by car from one house to the next: the distance as the crow flies, made longer by the circuity (at least
 * 1), at the speed, km/h. Whole minutes, rounded up; not-a-number gives not-a-number.
 */
export function minutesBetween(
  from: Place,
  to: Place,
  { circuity, speed }: { circuity: number; speed: number },
): number {
  return Math.ceil(((crowKilometres(from, to) * circuity) / speed) * 60);
}
