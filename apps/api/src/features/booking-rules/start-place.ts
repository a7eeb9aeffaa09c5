interface Place {
  latitude: number;
  longitude: number;
}

/** A place where both coordinates are known. */
export const wholePlace = (latitude: number | null, longitude: number | null): Place | null =>
  latitude === null || longitude === null ? null : { latitude, longitude };

/**
 * Where a rater's day begins and ends: at home, or at the office; where the one that is wanted is not known, at the
 * other.
 */
export function placeOfStart(
  profile: { startsAtHome: boolean; homeLatitude: number | null; homeLongitude: number | null } | null,
  office: Place | null,
): (Place & { at: 'home' | 'office' }) | null {
  const known = profile ? wholePlace(profile.homeLatitude, profile.homeLongitude) : null;
  const home = known && { ...known, at: 'home' as const };
  const desk = office && { ...office, at: 'office' as const };
  return profile?.startsAtHome === false ? (desk ?? home) : (home ?? desk);
}
