import {
  type Coordinates,
  emptyTravel,
  type PlanProblem,
  type PlanVisit,
  usualWeights,
} from '@countercheck/planning';
import { offOn } from '../../booking-rules/index.ts';
import { dayWords, type PlanClock } from './clock.ts';
import type { Loaded, LoadedVisit } from './load.ts';
import { outside, waitingForAnother } from './one-house.ts';
import { placeOfHouse, Places } from './places.ts';
import { planRaters } from './raters.ts';
import { planVisit, visitKey } from './visits.ts';

export interface Built {
  /** with a table of travel that is still to be filled */
  problem: PlanProblem;
  places: Coordinates[];
  byKey: Map<string, LoadedVisit>;
  /** visits whose house is nobody knows where */
  nowhere: LoadedVisit[];
  /** visits that wait for another one to the same house */
  waiting: LoadedVisit[];
  notes: string[];
  names: ReadonlyMap<string, string>;
}

/** Puts what was loaded into the form that the planning package takes. */
export function build(
  loaded: Loaded,
  asked: { replan: boolean; awayRaterIds: string[]; now: Date },
  clock: PlanClock,
): Built {
  const places = new Places();
  const { raters, notes } = planRaters(loaded, asked.awayRaterIds, clock, places);
  const known = new Set(raters.map(({ id }) => id));
  const names = new Map(loaded.raters.map(({ id, name }) => [id, name]));
  const nowhere: LoadedVisit[] = [];
  const byKey = new Map<string, LoadedVisit>();
  const visits: PlanVisit[] = [];
  const closed = new Set<string>();
  const close = (rater: string, day: number, why: string) => {
    if (closed.has(`${rater} ${day}`)) return;
    closed.add(`${rater} ${day}`);
    notes.push(
      `${names.get(rater) ?? 'A rater'}, ${dayWords(clock.dates[day]!)}: ${why} Nothing was added to this day.`,
    );
  };
  const waiting = waitingForAnother(loaded.visits);
  for (const visit of loaded.visits) {
    if (waiting.has(visit)) continue;
    if (visit.booked && !known.has(visit.booked.raterId)) continue;
    const place = placeOfHouse(visit.house);
    if (!place) {
      if (visit.booked) {
        const day = dayOf(visit.booked.startsAt, clock);
        close(visit.booked.raterId, day, `${visit.house.address} has no coordinates.`);
      } else nowhere.push(visit);
      continue;
    }
    const whole = planVisit(visit, places.index(place), clock, asked);
    const taken = loaded.taken
      .filter(({ houseId }) => houseId === visit.house.id && !visit.booked && visit.kind !== 'quality')
      .map(({ startsAt, endsAt }) => ({ from: clock.minute(startsAt), to: clock.minute(endsAt) }));
    const one = { ...whole, windows: outside(whole.windows, taken) };
    const at = one.fixed ?? one.promised;
    const off =
      visit.booked && offOn(loaded.daysOff, visit.booked.raterId, dateOf(visit.booked.startsAt, clock));
    const away = visit.booked && (off || asked.awayRaterIds.includes(visit.booked.raterId));
    if (off && one.fixed && !visit.booked!.begun)
      notes.push(
        `${visit.house.address} is booked with ${visit.booked!.rater} on ${dayWords(dateOf(visit.booked!.startsAt, clock))}, a day off (${off.why}). Move it, or plan again what is booked.`,
      );
    if (at && !away) {
      const day = dayOf(visit.booked!.startsAt, clock);
      const hours = raters.find(({ id }) => id === at.rater)!.days.find((each) => each.day === day);
      if (!hours) continue;
      if (at.start < hours.from || at.start + one.minutes > hours.to) {
        close(at.rater, day, `${visit.house.address} is booked outside working hours.`);
        continue;
      }
    }
    // What is under way with somebody who is away is nobody's to give on.
    if (one.fixed && away) continue;
    byKey.set(visitKey(visit), visit);
    visits.push(one);
  }
  const open = raters.map((rater) => ({
    ...rater,
    days: rater.days.filter(({ day }) => !closed.has(`${rater.id} ${day}`)),
  }));
  const gone = (visit: PlanVisit) => {
    const booked = byKey.get(visit.id)!.booked;
    return booked !== null && closed.has(`${booked.raterId} ${dayOf(booked.startsAt, clock)}`);
  };
  const problem = {
    ...{ visits: visits.filter((each) => !gone(each)), raters: open, startStep: 5 },
    ...{ travel: emptyTravel(places.list.length), weights: usualWeights },
  };
  return { problem, places: places.list, byKey, nowhere, waiting: [...waiting], notes, names };
}

const dateOf = (instant: Date, clock: PlanClock) => clock.dates[dayOf(instant, clock)] ?? '';
const dayOf = (instant: Date, clock: PlanClock) =>
  clock.dates.findIndex((_, day) => clock.minute(instant) < clock.starts(day + 1));
