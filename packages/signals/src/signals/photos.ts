import type { Elsewhere } from '../comparison/elsewhere.ts';
import type { Photo } from '../figures.ts';
import { binomialAtLeast } from '../statistics/tails.ts';
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
 * 256 bits of one from another house: of the rater's own, or of any other rater's that was handed in before it. Whose
 * photo was taken over by somebody later is not told of. Null hypothesis: a photo is so by a slip at most once in
 * fifty. Statistic: how many are. p-value: upper tail of the binomial distribution. Source: difference hash as in
 * `comparison/hashes`; the marks are our own. Fewer than five photos: no p-value. Never throws.
 * @param alike for each photo where its picture stands as well
 */
export function photos(all: readonly Photo[], alike: ReadonlyMap<string, readonly Elsewhere[]>): Outcome {
  if (all.length < least) return tooLittle('photos', all.length);
  const twice = all.flatMap((photo) =>
    (alike.get(photo.id) ?? [])
      .filter(({ raterId, earlier }) => raterId === photo.raterId || earlier)
      .map((other) => ({ photo, other })),
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
  const behind = all.filter(({ id }) => odd.has(id));
  return {
    signal: 'photos',
    looked: all.length,
    p: binomialAtLeast(odd.size, all.length, slips),
    sentence: `${odd.size} of ${all.length} photos do not belong where they stand: ${again.size} show the same picture as one of another house${taken.size > 0 ? `, ${taken.size} of them as one of another rater` : ''}, ${untimed.length} carry no time or one outside the visit.`,
    houseIds: [...new Set(behind.map(({ houseId }) => houseId))].slice(0, mostHouses),
    evidence: {
      kind: 'none',
      xLabel: '',
      yLabel: '',
      columns: ['House', 'Other house with the same picture', 'Whose'],
      rows: twice.slice(0, 60).map(({ photo, other }) => [photo.houseId, other.houseId, other.raterId]),
    },
  };
}
