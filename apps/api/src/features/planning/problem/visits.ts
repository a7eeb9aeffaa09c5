import type { PlanVisit, Span } from '@countercheck/planning';
import { isoDate } from '../../assessment/index.ts';
import type { PlanClock } from './clock.ts';
import type { LoadedVisit } from './load.ts';
import { needKey } from './raters.ts';

/** Nobody is sent off sooner than this, min. */
const notice = 30;

export interface PlanVisitsAsked {
  replan: boolean;
  now: Date;
}

/** What a plan calls a visit: its request's name or its own. */
export const visitKey = ({ requestId, visitId }: Pick<LoadedVisit, 'requestId' | 'visitId'>) =>
  requestId ? `request ${requestId}` : `visit ${visitId}`;

/** How dear it is to leave a visit out: most of all what was booked, then what this plan is the last chance for. */
function priority({ booked, deadlineOn, kind }: LoadedVisit, clock: PlanClock): number {
  if (booked) return 20;
  if (deadlineOn && isoDate(deadlineOn) <= clock.dates.at(-1)!) return 4;
  return kind === 'reinspection' || kind === 'quality' ? 2 : 1;
}

/** The days between its earliest and its deadline, from now on, and the hours in which somebody can be there. */
function windows(visit: LoadedVisit, clock: PlanClock, now: Date): Span[] {
  const open = clock.minute(now) + notice;
  return clock.dates.flatMap((date, day) => {
    if (visit.earliestOn && date < isoDate(visit.earliestOn)) return [];
    if (visit.deadlineOn && date > isoDate(visit.deadlineOn)) return [];
    const hours = visit.open;
    const opens = hours ? clock.at(day, hours.from) : clock.starts(day);
    const to = hours ? clock.at(day, hours.to) : clock.starts(day + 1);
    const from = Math.max(open, opens);
    return to > from ? [{ from, to }] : [];
  });
}

export function planVisit(
  visit: LoadedVisit,
  place: number,
  clock: PlanClock,
  { replan, now }: PlanVisitsAsked,
): PlanVisit {
  const { booked, needs } = visit;
  const appointment = booked && { rater: booked.raterId, start: clock.minute(booked.startsAt) };
  const stays =
    booked && (!replan || booked.begun || clock.minute(booked.startsAt) < clock.minute(now) + notice);
  const earliest = visit.earliestOn ? clock.dates.indexOf(isoDate(visit.earliestOn)) : -1;
  return {
    ...{ id: visitKey(visit), place, minutes: visit.minutes, size: 1, priority: priority(visit, clock) },
    windows: windows(visit, clock, now),
    instruments: needs.instruments.map(needKey),
    qualifications: needs.qualifications,
    notRaters: visit.notRaterIds,
    avoidRater: visit.avoidRaterId,
    // Noon, so that an hour more or less when the clocks change is still the same day.
    wantedFrom: booked ? null : Math.max(0, earliest) * 1440 + 720,
    fixed: stays ? appointment : null,
    promised: stays ? null : appointment,
  };
}
