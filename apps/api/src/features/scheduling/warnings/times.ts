import { TZDate } from '@date-fns/tz';
import { format } from 'date-fns';
import type { VisitWarning } from '@countercheck/contracts';
import { dayAt } from '../../assessment/index.ts';
import { minutesBetween } from './travel.ts';
import type { Surroundings, WarnedVisit } from './visit.ts';

const whyWords = {
  before_drywall: 'before the drywall is hung',
  before_closing: 'before the closing',
  agreed: 'as agreed',
} as const;
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

function travel(visit: WarnedVisit, around: Surroundings, day: string): VisitWarning[] {
  const { before, after } = neighbours(visit, around, day);
  const legs = [
    before && { from: before, to: visit, words: `from ${before.address}` },
    after && { from: visit, to: after, words: `on to ${after.address}` },
  ];
  return legs.flatMap((leg): VisitWarning[] => {
    if (!leg?.from.place || !leg.to.place) return [];
    const needed = minutesBetween(leg.from.place, leg.to.place, around.travel);
    const there = minutes(leg.from.endsAt, leg.to.startsAt);
    if (there >= needed) return [];
    const text = `The way ${leg.words} takes about ${needed} min; there are ${there} min for it.`;
    return [{ code: 'travel-too-tight', text }];
  });
}

function hours(visit: WarnedVisit, { profiles, timezone }: Surroundings): VisitWarning[] {
  const profile = profiles.get(visit.raterId);
  if (!profile) return [];
  const clock = (at: Date, pattern: string) => format(new TZDate(at, timezone), pattern);
  const weekday = Number(clock(visit.startsAt, 'i'));
  const own = profile.workingHours.find((each) => each.weekday === weekday);
  const { name } = profile.rater;
  if (!own)
    return [{ code: 'outside-hours', text: `${name} does not work on ${clock(visit.startsAt, 'EEEE')}s.` }];
  const [from, to] = [clock(visit.startsAt, 'HH:mm'), clock(visit.endsAt, 'HH:mm')];
  const overnight = clock(visit.startsAt, 'yyyy-MM-dd') !== clock(visit.endsAt, 'yyyy-MM-dd');
  if (from >= own.from && to <= own.to && !overnight) return [];
  return [{ code: 'outside-hours', text: `${name} works from ${own.from} to ${own.to} on that day.` }];
}

/** The way to the next house, the rater's hours, and the days between which the visit is wanted. */
export function aboutTimes(visit: WarnedVisit, around: Surroundings, day: string): VisitWarning[] {
  const found = [...travel(visit, around, day), ...hours(visit, around)];
  const { request } = visit;
  if (!request) return found;
  if (day < request.earliestOn)
    found.push({ code: 'before-earliest', text: `It is wanted from ${request.earliestOn} on, not before.` });
  if (request.deadlineOn && day > request.deadlineOn)
    found.push({
      code: 'after-deadline',
      text: `It has to be made by ${request.deadlineOn}, ${whyWords[request.deadlineWhy ?? 'agreed']}.`,
    });
  const long = minutes(visit.startsAt, visit.endsAt);
  if (long < request.minutes)
    found.push({
      code: 'too-short',
      text: `The items that apply take about ${request.minutes} min; the visit has ${long} min.`,
    });
  return found;
}
