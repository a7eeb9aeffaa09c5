import type { Coordinates } from '@countercheck/planning';
import { wholePlace } from '../../booking-rules/index.ts';

interface Placed {
  latitude: number | null;
  longitude: number | null;
  community: { latitude: number | null; longitude: number | null };
}

/** Where a house is: its own coordinates, or those of its community. */
export const placeOfHouse = ({ latitude, longitude, community }: Placed): Coordinates | null =>
  wholePlace(latitude, longitude) ?? wholePlace(community.latitude, community.longitude);

/** A list in which every point stands once. */
export class Places {
  readonly list: Coordinates[] = [];
  readonly #known = new Map<string, number>();

  index({ latitude, longitude }: Coordinates): number {
    const key = `${latitude},${longitude}`;
    const known = this.#known.get(key) ?? this.list.push({ latitude, longitude }) - 1;
    this.#known.set(key, known);
    return known;
  }
}
