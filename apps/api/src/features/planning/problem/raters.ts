import type { WorkingHours } from '@countercheck/contracts';
import { kindsWithoutCalibration } from '@countercheck/measurement';
import type { PlanRater, WorkingDay } from '@countercheck/planning';
import { isoDate } from '../../assessment/index.ts';
import { offOn, placeOfStart, type TimeOff, wholePlace } from '../../booking-rules/index.ts';
import { dayWords, type PlanClock } from './clock.ts';
import type { Loaded, LoadedRater } from './load.ts';
import type { Places } from './places.ts';

/** Until somebody says otherwise: Monday to Friday. */
const usualHours: WorkingHours = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', to: '16:30' }));
/** On shorter days nobody has to have a break, min. Common practice, no published source. */
const longWithoutBreak = 360;

/** One entry of a visit's needs, any kind of which will do, as one name. */
export const needKey = (kinds: readonly string[]) => kinds.join('|');

/** The working days of the raters who were chosen, and who of them is left out and why. */
export function planRaters(
  { raters, company, held, daysOff, visits }: Loaded,
  awayIds: readonly string[],
  clock: PlanClock,
  places: Places,
): { raters: PlanRater[]; notes: string[] } {
  const notes = clock.dates.flatMap((date) => {
    const off = daysOff.find((each) => each.raterId === null && each.from <= date && date <= each.to);
    return off ? [`${dayWords(date)}: nobody works, ${off.why}.`] : [];
  });
  const office = wholePlace(company.officeLatitude, company.officeLongitude);
  const groups = [
    ...new Map(
      visits.flatMap(({ needs }) => needs.instruments.map((each) => [needKey(each), each])),
    ).values(),
  ];
  const planned = raters.map((rater): PlanRater => {
    const hold = held.find(({ raterId }) => raterId === rater.id);
    const start = placeOfStart(rater.profile, office);
    const away = awayIds.includes(rater.id);
    if (!start && !away)
      notes.push(
        `${rater.name} has neither a home nor an office to start from. Enter coordinates in the profile or the planning settings.`,
      );
    if (hold && !away) notes.push(`${rater.name} is held since ${isoDate(hold.from)}: ${hold.reason}`);
    const hours =
      start && !away ? workingDays(rater, clock, places.index(start), hold?.from ?? null, groups) : [];
    const days = hours.filter(({ day }) => !offOn(daysOff, rater.id, clock.dates[day]!));
    notes.push(...offWords(rater, hours, clock, daysOff));
    return {
      id: rater.id,
      qualifications: rater.profile?.qualifications ?? [],
      // Whether he works or not; what is in calibration on which day stands with the day.
      instruments: groups
        .filter((kinds) => clock.dates.some((date) => carries(rater, kinds, date)))
        .map(needKey),
      days,
      // Whoever works half the hours is meant to do half the visits.
      share: days.reduce((sum, { from, to }) => sum + to - from, 0),
    };
  });
  return { raters: planned, notes };
}

/** Days on which this rater would work and is away, in words. */
const offWords = (
  { id, name }: LoadedRater,
  hours: readonly WorkingDay[],
  clock: PlanClock,
  daysOff: readonly TimeOff[],
): string[] =>
  hours.flatMap(({ day }) => {
    const off = offOn(daysOff, id, clock.dates[day]!);
    return off && off.raterId !== null ? [`${name}, ${dayWords(clock.dates[day]!)}: away, ${off.why}.`] : [];
  });

function workingDays(
  rater: LoadedRater,
  clock: PlanClock,
  place: number,
  heldFrom: Date | null,
  groups: readonly (readonly string[])[],
): WorkingDay[] {
  const { profile } = rater;
  const hours = (profile?.workingHours ?? usualHours) as unknown as WorkingHours;
  const minutes = profile?.breakMinutes ?? 30;
  return clock.dates.flatMap((date, day): WorkingDay[] => {
    const own = hours.find(({ weekday }) => weekday === clock.weekday(day));
    if (!own) return [];
    const [from, to] = [clock.at(day, own.from), clock.at(day, own.to)];
    if (heldFrom && clock.instant(from) >= heldFrom) return [];
    const third = (to - from) / 3;
    return [
      {
        ...{ day, from, to, startPlace: place, endPlace: place, room: null },
        // The break starts in the middle third of the day.
        pause:
          minutes > 0 && to - from >= longWithoutBreak
            ? { minutes, startsWithin: { from: from + third, to: to - third } }
            : null,
        instruments: groups.filter((kinds) => carries(rater, kinds, date)).map(needKey),
      },
    ];
  });
}

/** Whether one of these kinds is in his kit and in calibration that day. */
const carries = (rater: LoadedRater, kinds: readonly string[], date: string) =>
  rater.carries.some((each) => kinds.includes(each.kind) && holds(each, date));

const holds = ({ kind, calibrations }: LoadedRater['carries'][number], date: string) =>
  (kindsWithoutCalibration as readonly string[]).includes(kind) ||
  calibrations.some(({ calibratedOn, dueOn }) => isoDate(calibratedOn) <= date && date <= isoDate(dueOn));
