import { type Core, windowIn } from '../solver/core.ts';
import { lookInto, nowhere } from '../solver/insert.ts';
import { Routes } from '../solver/routes.ts';
import type { Unplaced, UnplacedCode } from './plan.ts';

/** Why each visit that is left out was left out, from what is missing altogether to what is only full. */
export function reasons(routes: Routes): Unplaced[] {
  const { core } = routes;
  const empty = new Routes(core);
  return Array.from(routes.left.slice(0, routes.outside))
    .sort((a, b) => a - b)
    .map((v) => ({ visit: core.problem.visits[v]!.id, ...reason(core, empty, v) }));
}

function reason(core: Core, empty: Routes, v: number): Omit<Unplaced, 'visit'> {
  const { raters, visits } = core.problem;
  const visit = visits[v]!;
  const because = (code: UnplacedCode, left: number, missing: string[] = []) => ({
    code,
    missing,
    raters: left,
  });
  if (visit.windows.length === 0) return because('no-window', 0);
  const qualified = raters.filter((each) =>
    visit.qualifications.every((need) => each.qualifications.includes(need)),
  );
  const lacking = (needs: readonly string[], of: (rater: (typeof raters)[number]) => readonly string[]) =>
    needs.filter((need) => !raters.some((each) => of(each).includes(need)));
  if (qualified.length === 0)
    return because(
      'no-qualification',
      0,
      lacking(visit.qualifications, (each) => each.qualifications),
    );
  const equipped = qualified.filter((each) =>
    visit.instruments.every((need) => each.instruments.includes(need)),
  );
  if (equipped.length === 0)
    return because(
      'no-instrument',
      0,
      lacking(visit.instruments, (each) => each.instruments),
    );
  const may = equipped.filter(({ id }) => !visit.notRaters.includes(id));
  if (may.length === 0) return because('no-rater-allowed', 0);
  const shifts = Array.from(core.shiftsOf.slice(core.firstShift[v], core.firstShift[v + 1]));
  if (shifts.length === 0) {
    // Somebody works long enough then, but what he carries is out of calibration by that day.
    const then = core.shifts.filter((each) => may.includes(raters[each.rater]!) && windowIn(visit, each));
    const without = visit.instruments.filter((need) => !then.some((each) => each.instruments.includes(need)));
    return then.length > 0 ? because('no-instrument', 0, without) : because('nobody-works-then', may.length);
  }
  const reached = shifts.filter((s) => {
    const found = nowhere();
    lookInto(empty, v, s, found, 0, null);
    return found.shift >= 0;
  });
  if (reached.length === 0) return because('too-far', may.length);
  return because('no-time-left', new Set(reached.map((s) => core.shifts[s]!.rater)).size);
}

/**
 * The reason for people. `named` puts the names of qualifications and instruments into words; where all single
 * needs are met but nobody meets them together, that is what is said.
 */
export function unplacedWords({ code, missing, raters }: Unplaced, named: (need: string) => string): string {
  const needs = missing.map(named).join(', ');
  const who = raters === 1 ? 'The one rater who could do it' : `None of the ${raters} raters who could do it`;
  switch (code) {
    case 'no-window':
      return 'No time is open for it in this plan: its earliest day comes later or its deadline has passed. Change one of them.';
    case 'no-qualification':
      return needs
        ? `No rater of this plan has the qualification it needs: ${needs}. Add a rater who has it.`
        : 'No rater of this plan has all the qualifications it needs together. Add a rater who has them.';
    case 'no-instrument':
      return needs
        ? `No qualified rater of this plan carries the instrument it needs, in calibration: ${needs}. Assign one.`
        : 'No qualified rater of this plan carries all the instruments it needs, in calibration. Assign what is missing.';
    case 'no-rater-allowed':
      return 'Everyone who could do it did the work that it looks at. Add another rater.';
    case 'nobody-works-then':
      return `${who} works long enough at a time that is open for it. Open another day, or change working hours or days off.`.replace(
        'The one rater who could do it works',
        'The one rater who could do it does not work',
      );
    case 'too-far':
      return `${who} could get there and back in working hours, even with nothing else that day. Start nearer or open more time.`.replace(
        'The one rater who could do it could',
        'The one rater who could do it could not',
      );
    case 'no-time-left':
      return raters === 1
        ? 'The one rater who could do it has no room left at a time that is open for it. Add a rater, a day, or move its deadline.'
        : `The ${raters} raters who could do it have no room left at a time that is open for it. Add a rater, a day, or move its deadline.`;
  }
}
