import type { PlanProblem, PlanVisit, Span } from '../model/problem.ts';

/** Later than any time of a plan, and earlier than any; finite, so that sums of them stay numbers. */
export const never = 1e15;
const minutesPerDay = 1440;

/** A working day of one rater: the route that the search fills. */
export interface Shift {
  rater: number;
  day: number;
  from: number;
  to: number;
  pauseMinutes: number;
  pauseFrom: number;
  pauseTo: number;
  room: number;
  instruments: readonly string[];
}

/**
 * The problem as arrays of numbers. Visits are nodes 0 … n − 1; shift s starts at node n + 2s and ends at
 * n + 2s + 1. What a visit may do on a shift stands at `visit × shifts + shift`.
 */
export interface Core {
  problem: PlanProblem;
  n: number;
  shifts: Shift[];
  /** of every node */
  place: Int32Array;
  places: number;
  travel: Float64Array;
  cost: Float64Array;
  minutes: Float64Array;
  size: Float64Array;
  leaveOut: Float64Array;
  allowed: Uint8Array;
  opens: Float64Array;
  /** latest start */
  closes: Float64Array;
  extra: Float64Array;
  /** the shifts of a visit: `shiftsOf[firstShift[v] … firstShift[v + 1]]` */
  firstShift: Int32Array;
  shiftsOf: Int32Array;
  /** shifts that cannot be told apart share a number */
  alike: Int32Array;
  fixed: Uint8Array;
  /** shift that was promised, −1 = none */
  promisedShift: Int32Array;
  promisedStart: Float64Array;
  /** fair share in minutes; `never` where nothing is asked */
  fairShare: Float64Array;
  step: number;
}

const holdsAll = (has: readonly string[], needed: readonly string[]) =>
  needed.every((each) => has.includes(each));

/** The longest part of a visit's windows inside a shift, or null when the visit does not fit into any. */
export function windowIn(visit: PlanVisit, { from, to }: Shift): Span | null {
  let best: Span | null = null;
  for (const window of visit.windows) {
    const part = { from: Math.max(window.from, from), to: Math.min(window.to, to) };
    if (part.to - part.from >= visit.minutes && (!best || part.to - part.from > best.to - best.from))
      best = part;
  }
  return best;
}

/** The shift that an appointment falls into, −1 when the rater does not work then. */
function shiftOf(core: Core, rater: string, start: number, minutes: number): number {
  return core.shifts.findIndex(
    (each) =>
      core.problem.raters[each.rater]!.id === rater && each.from <= start && each.to >= start + minutes,
  );
}

/** Turns a problem into arrays; the problem has been refused before if it is none. */
export function compile(problem: PlanProblem): Core {
  const { visits, raters, travel, weights } = problem;
  const shifts = raters.flatMap(({ days, ...own }, rater) =>
    days.map(({ day, from, to, pause, room, instruments }): Shift => {
      const carried = instruments ?? own.instruments;
      const start = { rater, day, from, to, room: room ?? never, instruments: carried };
      if (!pause) return { ...start, pauseMinutes: 0, pauseFrom: never, pauseTo: -never };
      const { from: pauseFrom, to: pauseTo } = pause.startsWithin;
      return { ...start, pauseMinutes: pause.minutes, pauseFrom, pauseTo };
    }),
  );
  const n = visits.length;
  const count = shifts.length;
  const ends = raters.flatMap(({ days }) => days.flatMap((day) => [day.startPlace, day.endPlace]));
  const core: Core = {
    ...{ problem, n, shifts, places: travel.places, travel: travel.minutes, step: problem.startStep },
    place: Int32Array.from([...visits.map((visit) => visit.place), ...ends]),
    cost: travel.minutes.map(
      (each, i) => each * weights.driveMinute + travel.distance[i]! * weights.distance,
    ),
    minutes: Float64Array.from(visits, (visit) => visit.minutes),
    size: Float64Array.from(visits, (visit) => visit.size),
    leaveOut: Float64Array.from(visits, (visit) => weights.unplaced * visit.priority),
    allowed: new Uint8Array(n * count),
    opens: new Float64Array(n * count),
    closes: new Float64Array(n * count),
    extra: new Float64Array(n * count),
    firstShift: new Int32Array(n + 1),
    shiftsOf: new Int32Array(0),
    alike: Int32Array.from(shifts, (_, i) => i),
    fixed: Uint8Array.from(visits, ({ fixed }) => (fixed ? 1 : 0)),
    promisedShift: new Int32Array(n).fill(-1),
    promisedStart: new Float64Array(n),
    fairShare: fairShares(problem),
  };
  visits.forEach((visit, v) => allow(core, visit, v));
  index(core);
  findAlike(core);
  return core;
}

function fairShares({ visits, raters, weights }: PlanProblem): Float64Array {
  const asked = visits.reduce((sum, { minutes }) => sum + minutes, 0);
  const shares = raters.reduce((sum, { share }) => sum + share, 0);
  const counts = shares > 0 && (weights.overShareMinute > 0 || weights.farOverShareMinute > 0);
  return Float64Array.from(raters, ({ share }) => (counts ? (asked * share) / shares : never));
}

function allow(core: Core, visit: PlanVisit, v: number): void {
  const { weights, raters } = core.problem;
  const count = core.shifts.length;
  const floor = (time: number) => (core.step > 0 ? Math.floor(time / core.step) * core.step : time);
  const at = visit.fixed ?? visit.promised;
  const atShift = at ? shiftOf(core, at.rater, at.start, visit.minutes) : -1;
  if (visit.promised && !visit.fixed) {
    core.promisedShift[v] = atShift;
    core.promisedStart[v] = visit.promised.start;
  }
  core.shifts.forEach((shift, s) => {
    const rater = raters[shift.rater]!;
    const here = v * count + s;
    if (visit.fixed) {
      core.allowed[here] = s === atShift ? 1 : 0;
      core.opens[here] = core.closes[here] = visit.fixed.start;
      return;
    }
    const window = windowIn(visit, shift);
    if (!window || visit.notRaters.includes(rater.id)) return;
    if (!holdsAll(rater.qualifications, visit.qualifications)) return;
    if (!holdsAll(shift.instruments, visit.instruments)) return;
    const latest = window.to - visit.minutes;
    // Whoever was promised an hour is not surprised by an earlier one.
    const promised = s === atShift && visit.promised!.start <= latest ? visit.promised!.start : -never;
    core.allowed[here] = 1;
    core.opens[here] = Math.max(window.from, promised);
    core.closes[here] = Math.max(floor(latest), core.opens[here]!);
    const waited = visit.wantedFrom === null ? 0 : shift.day - Math.floor(visit.wantedFrom / minutesPerDay);
    core.extra[here] =
      Math.max(0, waited) * weights.waitingDay + (visit.avoidRater === rater.id ? weights.avoidedRater : 0);
    if (!visit.promised) return;
    if (visit.promised.rater !== rater.id) core.extra[here] += weights.movedRater;
    if (Math.floor(visit.promised.start / minutesPerDay) !== shift.day) core.extra[here] += weights.movedDay;
    else if (s !== atShift) core.extra[here] += weights.movedLater;
  });
}

function index(core: Core): void {
  const count = core.shifts.length;
  const list: number[] = [];
  for (let v = 0; v < core.n; v++) {
    core.firstShift[v] = list.length;
    for (let s = 0; s < count; s++) if (core.allowed[v * count + s]) list.push(s);
  }
  core.firstShift[core.n] = list.length;
  core.shiftsOf = Int32Array.from(list);
}

/** Of several empty shifts that cannot be told apart the search tries one only. */
function findAlike(core: Core): void {
  const count = core.shifts.length;
  const known = new Map<string, number[]>();
  const columns = [core.allowed, core.opens, core.closes, core.extra];
  const same = (one: number, other: number) =>
    columns.every((column) => {
      for (let v = 0; v < core.n; v++)
        if (column[v * count + one] !== column[v * count + other]) return false;
      return true;
    });
  core.shifts.forEach(({ rater, ...times }, s) => {
    const ends = [core.place[core.n + 2 * s], core.place[core.n + 2 * s + 1]];
    // With a fair share a rater is somebody.
    const who = core.fairShare[rater] === never ? '' : rater;
    const key = JSON.stringify([who, times, ends]);
    const others = known.get(key) ?? [];
    const other = others.find((each) => same(each, s));
    if (other === undefined) known.set(key, [...others, s]);
    else core.alike[s] = other;
  });
}
