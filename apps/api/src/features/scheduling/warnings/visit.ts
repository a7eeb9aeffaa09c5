import type { RaterProfile, Visit, VisitRequest } from '@countercheck/contracts';
import type { TimeOff } from '../../booking-rules/index.ts';

export interface Place {
  latitude: number;
  longitude: number;
}

/** A visit as the doubts about it see it. */
export interface WarnedVisit {
  /** null for one that is not booked yet */
  id: string | null;
  raterId: string;
  kind: Visit['kind'];
  address: string;
  place: Place | null;
  startsAt: Date;
  endsAt: Date;
  /** what is asked for; null for a visit that nobody asked for */
  request: Pick<
    VisitRequest,
    'earliestOn' | 'deadlineOn' | 'deadlineWhy' | 'openFrom' | 'openTo' | 'minutes' | 'needs' | 'readiness'
  > | null;
  /** whose work is looked at */
  avoidRater: { id: string; name: string } | null;
  /** what was chosen to go along; nothing = what is needed of the rater's kit */
  instrumentIds: readonly string[];
}

export interface WarnedInstrument {
  id: string;
  kind: string;
  label: string;
  /** when each calibration was made and until when it holds, yyyy-mm-dd */
  calibrations: readonly { on: string; due: string }[];
}

/** Everything else that a visit is held against. */
export interface Surroundings {
  timezone: string;
  office: Place | null;
  travel: { circuity: number; speed: number };
  profiles: ReadonlyMap<string, RaterProfile>;
  instruments: ReadonlyMap<string, WarnedInstrument>;
  daysOff: readonly TimeOff[];
  /** the booked visits of the days in question, the one itself too */
  visits: readonly WarnedVisit[];
}

/** The instruments that go along: those that were chosen, or what the visit needs of the rater's kit. */
export function instrumentsOf(
  visit: WarnedVisit,
  { profiles, instruments }: Pick<Surroundings, 'profiles' | 'instruments'>,
): WarnedInstrument[] {
  const known = (ids: readonly string[]) =>
    ids.flatMap((id) => {
      const instrument = instruments.get(id);
      return instrument ? [instrument] : [];
    });
  if (visit.instrumentIds.length > 0) return known(visit.instrumentIds);
  const needed = new Set<string>(visit.request?.needs.instruments.flat() ?? []);
  return known(profiles.get(visit.raterId)?.instrumentIds ?? []).filter(({ kind }) => needed.has(kind));
}
