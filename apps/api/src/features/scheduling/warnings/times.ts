import { TZDate } from '@date-fns/tz';
import { format } from 'date-fns';
import type { VisitWarning } from '@countercheck/contracts';
import { dayAt } from '../../assessment/index.ts';
import { travelWarnings } from './ways.ts';
import type { Surroundings, WarnedVisit } from './visit.ts';
import { clockWords, dayWords } from './words.ts';

const whyWords = {
  before_drywall: 'before the drywall is hung',
  before_closing: 'before the closing',
  agreed: 'as agreed',
} as const;
const minutes = (from: Date, to: Date) => Math.round((to.getTime() - from.getTime()) / 60_000);

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
  if (from >= own.from && to <= own.to && !pastMidnight(visit, timezone)) return [];
  return [
    {
      code: 'outside-hours',
      text: `${name} works from ${clockWords(own.from)} to ${clockWords(own.to)} on that day.`,
    },
  ];
}

/** Another visit of the same rater at that time: the one thing of these that is refused. */
function elsewhere(visit: WarnedVisit, { visits, timezone }: Surroundings): VisitWarning[] {
  const clock = (at: Date) => format(new TZDate(at, timezone), 'h:mm a');
  return visits
    .filter((each) => each.raterId === visit.raterId && each.id !== visit.id)
    .filter((each) => each.startsAt < visit.endsAt && each.endsAt > visit.startsAt)
    .map(({ address, startsAt, endsAt }) => ({
      code: 'booked-already',
      text: `The rater is booked then already: ${address}, ${clock(startsAt)} to ${clock(endsAt)}. This cannot be booked so.`,
    }));
}

const pastMidnight = ({ startsAt, endsAt }: WarnedVisit, timezone: string) =>
  dayAt(startsAt, timezone) !== dayAt(endsAt, timezone);

/** The ways between houses and from and to where the day begins, the rater's hours, and the days between which the visit is wanted. */
export function aboutTimes(visit: WarnedVisit, around: Surroundings, day: string): VisitWarning[] {
  const found = [...elsewhere(visit, around), ...travelWarnings(visit, around, day), ...hours(visit, around)];
  const { request } = visit;
  if (!request) return found;
  if (day < request.earliestOn)
    found.push({
      code: 'before-earliest',
      text: `It is wanted from ${dayWords(request.earliestOn)} on, not before.`,
    });
  if (request.deadlineOn && day > request.deadlineOn)
    found.push({
      code: 'after-deadline',
      text: `It has to be made by ${dayWords(request.deadlineOn)}, ${whyWords[request.deadlineWhy ?? 'agreed']}.`,
    });
  const clock = (at: Date) => format(new TZDate(at, around.timezone), 'HH:mm');
  const { openFrom, openTo } = request;
  const inside =
    clock(visit.startsAt) >= (openFrom ?? '') &&
    clock(visit.endsAt) <= (openTo ?? '') &&
    !pastMidnight(visit, around.timezone);
  if (openFrom && openTo && !inside)
    found.push({
      code: 'outside-access',
      text: `Somebody is there from ${clockWords(openFrom)} to ${clockWords(openTo)} only.`,
    });
  const long = minutes(visit.startsAt, visit.endsAt);
  if (long < request.minutes)
    found.push({
      code: 'too-short',
      text: `The items that apply take about ${request.minutes} min; the visit has ${long} min.`,
    });
  return found;
}
