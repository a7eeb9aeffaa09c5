import type { WorkingHours } from '@countercheck/contracts';
import { kindsWithoutCalibration } from '@countercheck/measurement';
import type { PlanRater, WorkingDay } from '@countercheck/planning';
import { isoDate } from '../../assessment/index.ts';
import { placeOfStart, wholePlace } from '../../booking-rules/index.ts';
import type { PlanClock } from './clock.ts';
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
  { raters, company, held, visits }: Loaded,
  awayIds: readonly string[],
  clock: PlanClock,
  places: Places,
): { raters: PlanRater[]; notes: string[] } {
  const notes: string[] = [];
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
    const days =
      start && !away ? workingDays(rater, clock, places.index(start), hold?.from ?? null, groups) : [];
    return {
      id: rater.id,
      qualifications: rater.profile?.qualifications ?? [],
      instruments: [...new Set(days.flatMap(({ instruments }) => instruments ?? []))],
      days,
      // Whoever works half the hours is meant to do half the visits.
      share: days.reduce((sum, { from, to }) => sum + to - from, 0),
    };
  });
  return { raters: planned, notes };
}

function workingDays(
  { profile, carries }: LoadedRater,
  clock: PlanClock,
  place: number,
  heldFrom: Date | null,
  groups: readonly (readonly string[])[],
): WorkingDay[] {
  const hours = (profile?.workingHours ?? usualHours) as unknown as WorkingHours;
  const minutes = profile?.breakMinutes ?? 30;
  return clock.dates.flatMap((date, day): WorkingDay[] => {
    const own = hours.find(({ weekday }) => weekday === clock.weekday(day));
    if (!own) return [];
    const [from, to] = [clock.at(day, own.from), clock.at(day, own.to)];
    if (heldFrom && clock.instant(from) >= heldFrom) return [];
    const third = (to - from) / 3;
    const fits = (kind: string) => carries.some((each) => each.kind === kind && holds(each, date));
    return [
      {
        ...{ day, from, to, startPlace: place, endPlace: place, room: null },
        // The break starts in the middle third of the day.
        pause:
          minutes > 0 && to - from >= longWithoutBreak
            ? { minutes, startsWithin: { from: from + third, to: to - third } }
            : null,
        instruments: groups.filter((kinds) => kinds.some(fits)).map(needKey),
      },
    ];
  });
}

const holds = ({ kind, calibrations }: LoadedRater['carries'][number], date: string) =>
  (kindsWithoutCalibration as readonly string[]).includes(kind) ||
  calibrations.some(({ calibratedOn, dueOn }) => isoDate(calibratedOn) <= date && date <= isoDate(dueOn));
