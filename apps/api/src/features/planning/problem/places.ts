import type { Coordinates } from '@countercheck/planning';

interface Placed {
  latitude: number | null;
  longitude: number | null;
  community: { latitude: number | null; longitude: number | null };
}

const whole = (latitude: number | null, longitude: number | null): Coordinates | null =>
  latitude === null || longitude === null ? null : { latitude, longitude };

/** Where a house is: its own coordinates, or those of its community. */
export const placeOfHouse = ({ latitude, longitude, community }: Placed): Coordinates | null =>
  whole(latitude, longitude) ?? whole(community.latitude, community.longitude);

/** Where a rater's day begins and ends: at home, or at the office. */
export function placeOfStart(
  profile: { startsAtHome: boolean; homeLatitude: number | null; homeLongitude: number | null } | null,
  company: { officeLatitude: number | null; officeLongitude: number | null },
): Coordinates | null {
  const home = profile ? whole(profile.homeLatitude, profile.homeLongitude) : null;
  const office = whole(company.officeLatitude, company.officeLongitude);
  return profile?.startsAtHome === false ? (office ?? home) : (home ?? office);
}

/** A list in which every point stands once. */
export class Places {
  readonly list: Coordinates[] = [];
  readonly #known = new Map<string, number>();

  index(place: Coordinates): number {
    const key = `${place.latitude},${place.longitude}`;
    const known = this.#known.get(key) ?? this.list.push(place) - 1;
    this.#known.set(key, known);
    return known;
  }
}
