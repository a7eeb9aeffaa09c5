import type { TravelTable } from './problem.ts';

export interface Coordinates {
  /** degrees, north and east positive */
  latitude: number;
  longitude: number;
}

export interface TravelAssumptions {
  /** road distance over distance as the crow flies, at least 1 */
  circuity: number;
  /** mean speed on the road, in kilometres per hour */
  kilometresPerHour: number;
  /** for parking and getting to the door, added to each drive that is not between one and the same place */
  extraMinutes: number;
}

/** Mean radius of the earth, (2a + b) / 3 of the WGS 84 ellipsoid (from memory). */
const earthRadiusKm = 6371.0088;

/**
 * Distance as the crow flies on a sphere, in kilometres, by the haversine formula, which
 * keeps its digits for near points. The sphere is within about 0.6 % of the ellipsoid (from memory), far below
 * what the circuity leaves open. Never throws; not-a-number gives not-a-number.
 */
export function kilometresBetween(one: Coordinates, other: Coordinates): number {
  const radians = Math.PI / 180;
  const north = Math.sin(((other.latitude - one.latitude) * radians) / 2) ** 2;
  const east = Math.sin(((other.longitude - one.longitude) * radians) / 2) ** 2;
  const chord = north + Math.cos(one.latitude * radians) * Math.cos(other.latitude * radians) * east;
  return 2 * earthRadiusKm * Math.asin(Math.min(1, Math.sqrt(chord)));
}

/**
 * Driving between all places from their coordinates: kilometres = crow's kilometres · circuity,
 * minutes = kilometres ÷ speed
 * + extra. Throws a RangeError for a circuity below 1, a speed that is not above 0, negative extra minutes or
 * coordinates that are no numbers.
 */
export function travelFromCoordinates(
  places: readonly Coordinates[],
  { circuity, kilometresPerHour, extraMinutes }: TravelAssumptions,
): TravelTable {
  if (!(circuity >= 1))
    throw new RangeError(`The circuity is ${circuity}; no road is shorter than straight.`);
  if (!(kilometresPerHour > 0))
    throw new RangeError(`The speed is ${kilometresPerHour} km/h; it has to be above 0.`);
  if (!(extraMinutes >= 0)) throw new RangeError(`The extra minutes are ${extraMinutes}; at least 0.`);
  const count = places.length;
  const table = emptyTravel(count);
  for (let from = 0; from < count; from++) {
    for (let to = 0; to < from; to++) {
      const crow = kilometresBetween(places[from]!, places[to]!);
      if (Number.isNaN(crow)) throw new RangeError(`Place ${from} or ${to} has no coordinates.`);
      const kilometres = crow * circuity;
      const minutes = crow === 0 ? 0 : (kilometres / kilometresPerHour) * 60 + extraMinutes;
      for (const at of [from * count + to, to * count + from]) {
        table.distance[at] = kilometres;
        table.minutes[at] = minutes;
      }
    }
  }
  return table;
}

/** A table of zeros, minutes and kilometres, for so many places (0 and more), to be filled from another source. */
export function emptyTravel(places: number): TravelTable {
  return { places, minutes: new Float64Array(places ** 2), distance: new Float64Array(places ** 2) };
}
