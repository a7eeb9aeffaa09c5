import type { Core } from './core.ts';
import { keepTimes, workAround, workOutTimes } from './times.ts';

/** What a rater's minutes of visits cost for the share that was meant: nothing up to it, then more, then twice. */
export function shareCost(core: Core, rater: number, minutes: number): number {
  const fair = core.fairShare[rater]!;
  if (minutes <= fair) return 0;
  const { overShareMinute, farOverShareMinute } = core.problem.weights;
  return (minutes - fair) * overShareMinute + Math.max(0, minutes - 1.25 * fair) * farOverShareMinute;
}

/**
 * A plan under work: for each shift a chain of visits between its two ends, with what makes a change checkable
 * in a fixed number of steps. Of every node are kept the earliest departure, with the break still to come
 * (`leaves0`) and with the break taken (`leaves1`), and the latest arrival from which the rest of the chain is
 * still possible, again for both (`latest0`, `latest1`). An arrival fits when it is no later than the latest
 * one of its kind.
 */
export class Routes {
  readonly core: Core;
  readonly next: Int32Array;
  readonly previous: Int32Array;
  /** of a visit; −1 = left out */
  readonly shift: Int32Array;
  readonly leaves0: Float64Array;
  readonly leaves1: Float64Array;
  readonly latest0: Float64Array;
  readonly latest1: Float64Array;
  /** of a shift */
  readonly load: Float64Array;
  readonly count: Int32Array;
  readonly late: Float64Array;
  readonly promises: Int32Array;
  /** minutes of visits of a rater */
  readonly worked: Float64Array;
  /** the visits that are left out, the first `outside` of them */
  readonly left: Int32Array;
  readonly leftAt: Int32Array;
  /** room for a timetable */
  readonly starts: Float64Array;
  outside = 0;
  /** the sum of everything */
  cost = 0;

  constructor(core: Core) {
    this.core = core;
    const { n, shifts } = core;
    const nodes = n + 2 * shifts.length;
    const ints = (length: number) => new Int32Array(length);
    const floats = (length: number) => new Float64Array(length);
    [this.next, this.previous, this.shift] = [ints(nodes), ints(nodes), ints(n).fill(-1)];
    [this.leaves0, this.leaves1] = [floats(nodes), floats(nodes)];
    [this.latest0, this.latest1] = [floats(nodes), floats(nodes)];
    [this.load, this.late] = [floats(shifts.length), floats(shifts.length)];
    [this.count, this.promises] = [ints(shifts.length), ints(shifts.length)];
    this.worked = floats(core.problem.raters.length);
    [this.left, this.leftAt] = [ints(n), ints(n)];
    this.starts = floats(nodes);
    for (let v = 0; v < n; v++) this.#leave(v);
    for (let s = 0; s < shifts.length; s++) {
      this.next[n + 2 * s] = n + 2 * s + 1;
      this.previous[n + 2 * s + 1] = n + 2 * s;
      this.refresh(s);
    }
  }

  /** Becomes like another one of the same problem. */
  become(other: Routes): void {
    this.next.set(other.next);
    this.previous.set(other.previous);
    this.shift.set(other.shift);
    this.leaves0.set(other.leaves0);
    this.leaves1.set(other.leaves1);
    this.latest0.set(other.latest0);
    this.latest1.set(other.latest1);
    this.load.set(other.load);
    this.count.set(other.count);
    this.late.set(other.late);
    this.promises.set(other.promises);
    this.worked.set(other.worked);
    this.left.set(other.left);
    this.leftAt.set(other.leftAt);
    this.outside = other.outside;
    this.cost = other.cost;
  }

  #leave(v: number): void {
    this.shift[v] = -1;
    this.left[this.outside] = v;
    this.leftAt[v] = this.outside++;
    this.cost += this.core.leaveOut[v]!;
  }

  /** What the way from one node to another costs; an empty shift costs nothing. */
  way(from: number, to: number): number {
    const { n, place, places, cost } = this.core;
    if (from >= n && to >= n) return 0;
    return cost[place[from]! * places + place[to]!]!;
  }

  /** Puts a visit that is left out behind a node of a shift. The times are not worked out: see `refresh`. */
  link(v: number, s: number, after: number): void {
    const { core, next, previous } = this;
    const before = next[after]!;
    this.cost += this.way(after, v) + this.way(v, before) - this.way(after, before);
    next[after] = previous[before] = v;
    next[v] = before;
    previous[v] = after;
    this.#belong(v, s, 1);
    this.cost -= core.leaveOut[v]!;
    const at = this.leftAt[v]!;
    const last = this.left[--this.outside]!;
    this.left[at] = last;
    this.leftAt[last] = at;
  }

  /** Takes a visit out of its shift. The times are not worked out: see `refresh`. */
  unlink(v: number): void {
    const { next, previous } = this;
    const [before, after] = [previous[v]!, next[v]!];
    this.cost += this.way(before, after) - this.way(before, v) - this.way(v, after);
    next[before] = after;
    previous[after] = before;
    this.#belong(v, this.shift[v]!, -1);
    this.#leave(v);
  }

  #belong(v: number, s: number, sign: 1 | -1): void {
    const { core } = this;
    const rater = core.shifts[s]!.rater;
    const worked = this.worked[rater]!;
    this.shift[v] = s;
    this.load[s] = this.load[s]! + sign * core.size[v]!;
    this.count[s] = this.count[s]! + sign;
    if (core.promisedShift[v] === s) this.promises[s] = this.promises[s]! + sign;
    this.worked[rater] = worked + sign * core.minutes[v]!;
    this.cost += sign * core.extra[v * core.shifts.length + s]!;
    this.cost += shareCost(core, rater, this.worked[rater]) - shareCost(core, rater, worked);
  }

  /** Puts a visit in behind a node where it is known to fit, with the times. */
  putIn(v: number, s: number, after: number): void {
    this.link(v, s, after);
    if (this.promises[s]! > 0) this.refresh(s);
    else workAround(this, s, v);
  }

  /** Works out the times of a shift after its chain has changed; false when they do not fit. */
  refresh(s: number): boolean {
    const fits = workOutTimes(this, s);
    const late = fits && this.promises[s]! > 0 ? this.#lateness(s) : 0;
    this.cost += late - this.late[s]!;
    this.late[s] = late;
    return fits;
  }

  /** What promises cost that keep rater and day but start late. */
  #lateness(s: number): number {
    const { core, starts } = this;
    const { movedLater, promiseTolerance } = core.problem.weights;
    keepTimes(this, s, starts);
    const tail = core.n + 2 * s + 1;
    let sum = 0;
    for (let v = this.next[core.n + 2 * s]!; v !== tail; v = this.next[v]!)
      if (core.promisedShift[v] === s && starts[v]! > core.promisedStart[v]! + promiseTolerance)
        sum += movedLater;
    return sum;
  }
}
