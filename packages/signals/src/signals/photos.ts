import type { Elsewhere } from '../comparison/elsewhere.ts';
import type { Photo } from '../figures.ts';
import { atLeast } from '../statistics/counts.ts';
import { mostHouses, tooLittle, type Outcome } from './finding.ts';

/** A wrong clock, or a photo attached to the wrong house: share of photos. A mark of our own. */
const slips = 0.02;
/** A photo belongs to a visit from an hour before its begin to an hour after its end. A mark of our own. */
const leeway = 3_600_000;
const least = 5;

/**
 * Do photos come from another time or another house?
 *
 * A photo with no time, with one outside its visit (an hour of leeway), or whose perceptual hash is within six of
 * 256 bits of one from another house: of the rater's own or of any other rater's, that was handed in before it. Whose
 * photo was taken over by somebody later is not told of. Null hypothesis: a photo is so by a slip at most once in
 * fifty, however slips keep together within a house, as those of a wrong clock do. Statistic: houses with any such
 * photo. p-value: upper tail of the sum of independent houses with chance 1 − 0.98ⁿ, n photos each (Poisson binomial);
 * that is what n independent photos have, and more than n that keep together.
 * Source: difference hash as in `comparison/hashes`; the marks are our own. Fewer than five photos: no p-value.
 * Never throws.
 * @param alike for each photo where its picture stands as well
 */
export function photos(all: readonly Photo[], alike: ReadonlyMap<string, readonly Elsewhere[]>): Outcome {
  if (all.length < least) return tooLittle('photos', all.length);
  const twice = all.flatMap((photo) =>
    (alike.get(photo.id) ?? []).filter(({ earlier }) => earlier).map((other) => ({ photo, other })),
  );
  const again = new Set(twice.map(({ photo }) => photo.id));
  const taken = new Set(
    twice.flatMap(({ photo, other }) => (other.raterId === photo.raterId ? [] : [photo.id])),
  );
  const untimed = all.filter(
    ({ takenAt, visit }) =>
      takenAt === null || (visit !== null && (takenAt < visit.from - leeway || takenAt > visit.to + leeway)),
  );
  const odd = new Set([...untimed.map(({ id }) => id), ...again]);
  const byHouse = new Map<string, { photos: number; odd: number }>();
  for (const { id, houseId } of all) {
    const { photos: count, odd: oddOnes } = byHouse.get(houseId) ?? { photos: 0, odd: 0 };
    byHouse.set(houseId, { photos: count + 1, odd: oddOnes + (odd.has(id) ? 1 : 0) });
  }
  const houses = [...byHouse].filter(([, house]) => house.odd > 0).sort((a, b) => b[1].odd - a[1].odd);
  const bySlips = [...byHouse.values()].map(({ photos: count }) => {
    const none = (1 - slips) ** count;
    return [none, 1 - none];
  });
  return {
    signal: 'photos',
    looked: all.length,
    p: atLeast(houses.length, bySlips),
    sentence: `${odd.size} of ${all.length} photos, in ${houses.length} of ${byHouse.size} houses, do not belong where they stand: ${again.size} show the same picture as an earlier one of another house${taken.size > 0 ? `, ${taken.size} of them as one of another rater` : ''}, ${untimed.length} carry no time or one outside the visit.`,
    houseIds: houses.map(([houseId]) => houseId).slice(0, mostHouses),
    evidence: {
      kind: 'none',
      xLabel: '',
      yLabel: '',
      columns: ['House', 'Other house with the same picture', 'Whose'],
      rows: twice.slice(0, 60).map(({ photo, other }) => [photo.houseId, other.houseId, other.raterId]),
    },
  };
}
