import type { PlanProblem, PlanRater, PlanVisit, WorkingDay } from '../model/problem.ts';
import type { Plan, PlannedDay } from '../solution/plan.ts';

const tolerance = 1e-6;

/**
 * What is wrong with a plan, in words; nothing when it holds. Looks at the plan as a person with the list of
 * visits and a clock would, and shares no code with the search: every visit exactly once or named as left out,
 * inside a window, by a rater who may and can do it, with time for every drive, in working hours, with the
 * break, no more than the day takes, what is fixed where it is fixed. Times in minutes since the first midnight of
 * the plan, compared with room for binary arithmetic (1e-6 minutes). Pure; never throws for a plan that is wrong.
 */
export function faults(problem: PlanProblem, plan: Plan): string[] {
  const found: string[] = [];
  const closed = new Set(plan.closed.map(({ rater, day }) => `${rater} ${day}`));
  const seen = new Map<string, number>();
  const count = (id: string) => seen.set(id, (seen.get(id) ?? 0) + 1);
  const days = new Set<string>();
  for (const day of plan.days) {
    const key = `${day.rater} ${day.day}`;
    if (days.has(key)) found.push(`${key} is planned twice`);
    days.add(key);
    const rater = problem.raters.find(({ id }) => id === day.rater);
    const hours = rater?.days.find((each) => each.day === day.day);
    if (!rater || !hours) {
      found.push(`${key} is nobody's working day`);
      continue;
    }
    if (closed.has(key)) found.push(`${key} is closed, yet planned`);
    found.push(...dayFaults(problem, rater, hours, day).map((what) => `${key}: ${what}`));
    for (const { visit } of day.visits) count(visit);
  }
  for (const { visit } of plan.unplaced) count(visit);
  for (const visit of problem.visits) {
    const times = seen.get(visit.id) ?? 0;
    // What is fixed on a closed day, or outside working hours, is nobody's to plan.
    if (times !== 1 && !(visit.fixed && times === 0)) found.push(`${visit.id} is there ${times} times`);
  }
  for (const id of seen.keys())
    if (!problem.visits.some((each) => each.id === id)) found.push(`${id} was never asked for`);
  return found;
}

function dayFaults(problem: PlanProblem, rater: PlanRater, hours: WorkingDay, day: PlannedDay): string[] {
  const found: string[] = [];
  const visits = day.visits.map(({ visit }) => problem.visits.find(({ id }) => id === visit));
  if (day.leaves < hours.from - tolerance) found.push(`leaves at ${day.leaves}, before ${hours.from}`);
  if (day.returns > hours.to + tolerance) found.push(`returns at ${day.returns}, after ${hours.to}`);
  let [free, place, size, fixed] = [day.leaves, hours.startPlace, 0, 0];
  let pauses = 0;
  const drive = (to: number, until: number, what: string) => {
    const minutes = problem.travel.minutes[place * problem.travel.places + to]!;
    const pause = day.pause;
    const held = pause && pause.from >= free - tolerance && pause.to <= until + tolerance;
    if (held) pauses++;
    const needed = minutes + (held ? pause.to - pause.from : 0);
    if (free + needed > until + tolerance)
      found.push(`${what} is reached at ${free + needed}, not by ${until}`);
    place = to;
  };
  day.visits.forEach(({ visit: id, start, end }, i) => {
    const visit = visits[i];
    if (!visit) return;
    drive(visit.place, start, id);
    found.push(
      ...visitFaults(
        problem,
        { ...rater, instruments: hours.instruments ?? rater.instruments },
        visit,
        start,
        end,
      ),
    );
    free = end;
    size += visit.size;
    if (visit.fixed) fixed += visit.size;
  });
  drive(hours.endPlace, day.returns, 'the end');
  // What is fixed may fill a day beyond its room; nothing more is to be added to it then.
  const room = Math.max(hours.room ?? Infinity, fixed);
  if (size > room + tolerance) found.push(`${size} is more than ${room}`);
  return [...found, ...pauseFaults(hours, day, pauses)];
}

function visitFaults(
  problem: PlanProblem,
  rater: PlanRater,
  visit: PlanVisit,
  start: number,
  end: number,
): string[] {
  const found: string[] = [];
  if (Math.abs(end - start - visit.minutes) > tolerance) found.push(`${visit.id} lasts ${end - start}`);
  if (visit.fixed) {
    if (visit.fixed.rater !== rater.id || visit.fixed.start !== start) found.push(`${visit.id} was fixed`);
    return found;
  }
  const open = visit.windows.some(({ from, to }) => start >= from - tolerance && end <= to + tolerance);
  if (!open) found.push(`${visit.id} is outside its windows`);
  if (visit.notRaters.includes(rater.id)) found.push(`${visit.id} may not be done by this rater`);
  for (const each of visit.qualifications)
    if (!rater.qualifications.includes(each)) found.push(`${visit.id} lacks ${each}`);
  for (const each of visit.instruments)
    if (!rater.instruments.includes(each)) found.push(`${visit.id} lacks ${each}`);
  const step = problem.startStep;
  const odd = step > 0 && Math.abs(start / step - Math.round(start / step)) > tolerance;
  const kept = visit.promised?.start === start || visit.windows.some(({ from }) => from === start);
  if (odd && !kept && start !== Math.max(0, startOfWork(problem, rater, start)))
    found.push(`${visit.id} starts at the odd time ${start}`);
  return found;
}

const startOfWork = (problem: PlanProblem, rater: PlanRater, at: number) =>
  problem.raters.find(({ id }) => id === rater.id)!.days.find(({ from, to }) => from <= at && at <= to)
    ?.from ?? -1;

function pauseFaults({ pause, from }: WorkingDay, day: PlannedDay, pauses: number): string[] {
  if (!pause) return day.pause ? ['a break that the day does not have'] : [];
  const { startsWithin, minutes } = pause;
  if (day.pause) {
    const found = pauses === 1 ? [] : [`the break lies in ${pauses} gaps`];
    if (Math.abs(day.pause.to - day.pause.from - minutes) > tolerance)
      found.push('the break has another length');
    const inside =
      day.pause.from >= startsWithin.from - tolerance && day.pause.from <= startsWithin.to + tolerance;
    return inside ? found : [...found, `the break starts at ${day.pause.from}`];
  }
  // Without a break on the way there must be one before leaving or after coming home.
  const before =
    from <= startsWithin.to && day.leaves >= Math.max(from, startsWithin.from) + minutes - tolerance;
  const after = Math.max(day.returns, startsWithin.from) <= startsWithin.to + tolerance;
  return before || after ? [] : ['there is no break'];
}
