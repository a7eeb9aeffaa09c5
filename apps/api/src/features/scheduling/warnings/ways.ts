import { TZDate } from '@date-fns/tz';
import { format } from 'date-fns';
import type { VisitWarning } from '@countercheck/contracts';
import { dayAt } from '../../assessment/index.ts';
import { placeOfStart } from '../../booking-rules/index.ts';
import { minutesBetween } from './travel.ts';
import type { Surroundings, WarnedVisit } from './visit.ts';
import { clockWords } from './words.ts';

const minutes = (from: Date, to: Date) => Math.round((to.getTime() - from.getTime()) / 60_000);

/** The visits just before and after on the same day. */
function neighbours(visit: WarnedVisit, { visits, timezone }: Surroundings, day: string) {
  const own = visits.filter(
    (each) =>
      each.raterId === visit.raterId && each.id !== visit.id && dayAt(each.startsAt, timezone) === day,
  );
  return {
    before: own
      .filter(({ endsAt }) => endsAt <= visit.startsAt)
      .toSorted((a, b) => b.endsAt.getTime() - a.endsAt.getTime())[0],
    after: own
      .filter(({ startsAt }) => startsAt >= visit.endsAt)
      .toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime())[0],
  };
}

/** The ways from the visit before and to the next; on the first and the last one, from where the day begins and back. */
export function travelWarnings(visit: WarnedVisit, around: Surroundings, day: string): VisitWarning[] {
  const { before, after } = neighbours(visit, around, day);
  const legs = [
    before && { from: before, to: visit, words: `from ${before.address}` },
    after && { from: visit, to: after, words: `on to ${after.address}` },
  ];
  const ends = [...(before ? [] : fromStart(visit, around)), ...(after ? [] : backAgain(visit, around))];
  return [
    ...legs.flatMap((leg): VisitWarning[] => {
      if (!leg?.from.place || !leg.to.place) return [];
      const needed = minutesBetween(leg.from.place, leg.to.place, around.travel);
      const there = minutes(leg.from.endsAt, leg.to.startsAt);
      if (there >= needed) return [];
      const text = `The way ${leg.words} takes about ${needed} min; there are ${there} min for it.`;
      return [{ code: 'travel-too-tight', text }];
    }),
    ...ends.map((text): VisitWarning => ({ code: 'travel-too-tight', text })),
  ];
}

const placeWords = { home: 'home', office: 'the office' } as const;
const minuteOf = (clock: string) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));

/** Where the day begins, its hours, and how long the way between there and the visit is; null where one is not known. */
function startOf(visit: WarnedVisit, { profiles, office, timezone, travel }: Surroundings) {
  const profile = profiles.get(visit.raterId);
  const start = profile && placeOfStart(profile, office);
  const clock = (at: Date, pattern: string) => format(new TZDate(at, timezone), pattern);
  const weekday = Number(clock(visit.startsAt, 'i'));
  const hours = profile?.workingHours.find((each) => each.weekday === weekday);
  if (!start || !hours || !visit.place) return null;
  return {
    ...{ hours, place: placeWords[start.at], needed: minutesBetween(start, visit.place, travel) },
    begins: minuteOf(clock(visit.startsAt, 'HH:mm')),
    ends: minuteOf(clock(visit.endsAt, 'HH:mm')),
  };
}

/** A visit that begins before work does is outside the hours, which is said elsewhere. */
function fromStart(visit: WarnedVisit, around: Surroundings): string[] {
  const day = startOf(visit, around);
  if (!day) return [];
  const there = day.begins - minuteOf(day.hours.from);
  if (there < 0 || there >= day.needed) return [];
  return [
    `The way from ${day.place} takes about ${day.needed} min; work begins at ${clockWords(day.hours.from)}, which leaves ${there} min for it.`,
  ];
}

function backAgain(visit: WarnedVisit, around: Surroundings): string[] {
  const day = startOf(visit, around);
  if (!day) return [];
  const there = minuteOf(day.hours.to) - day.ends;
  if (there < 0 || there >= day.needed) return [];
  const back = day.place === 'home' ? 'home' : `back to ${day.place}`;
  return [
    `The way ${back} takes about ${day.needed} min; work ends at ${clockWords(day.hours.to)}, which leaves ${there} min for it.`,
  ];
}
