import { type Core, never } from '../solver/core.ts';
import type { Routes } from '../solver/routes.ts';
import type { Column } from './enumerate.ts';

/**
 * The choice of columns as a linear programme in LP form: each visit once or left out, each shift at most once
 * (those alike together as often as there are), and the minutes above a rater's share, in two steps. With
 * `whole` the columns are chosen whole; without it the value is a lower bound when every column is there. Rows are
 * named `visit`, `shift`, `over` and `far` with the number of what they are of.
 */
export function linearModel(core: Core, begun: Routes, columns: readonly Column[], whole: boolean): string {
  const covered = Array.from({ length: core.n }, () => [] as string[]);
  const ofShift = new Map<number, string[]>();
  const ofRater = core.problem.raters.map(() => [] as string[]);
  const costs: string[] = [];
  columns.forEach(({ shift, visits, cost }, i) => {
    const name = `x${i}`;
    costs.push(term(cost, name));
    // A chain of a bound may have a visit twice.
    for (const v of new Set(visits)) {
      const times = visits.filter((each) => each === v).length;
      covered[v]!.push(times === 1 ? name : `${times} ${name}`);
    }
    ofShift.set(shift, [...(ofShift.get(shift) ?? []), name]);
    const minutes = visits.reduce((sum, v) => sum + core.minutes[v]!, 0);
    if (minutes > 0) ofRater[core.shifts[shift]!.rater]!.push(term(minutes, name));
  });
  const rows: [name: string, row: string][] = [];
  covered.forEach((names, v) => {
    // What is fixed and found no place in the beginning stands outside the plan.
    if (core.fixed[v] && begun.shift[v]! < 0) return;
    rows.push([`visit${v}`, `${[...names, ...(core.fixed[v] ? [] : [`u${v}`])].join(' + ')} = 1`]);
    if (!core.fixed[v]) costs.push(term(core.leaveOut[v]!, `u${v}`));
  });
  for (const [shift, names] of ofShift) {
    const alike = core.alike.reduce((count, each) => count + Number(each === shift), 0);
    rows.push([`shift${shift}`, `${names.join(' + ')} <= ${alike}`]);
  }
  const { overShareMinute, farOverShareMinute } = core.problem.weights;
  ofRater.forEach((terms, r) => {
    const fair = core.fairShare[r]!;
    if (fair === never || terms.length === 0) return;
    rows.push([`over${r}`, `${terms.join(' ')} - o${r} <= ${fair}`]);
    rows.push([`far${r}`, `${terms.join(' ')} - p${r} <= ${1.25 * fair}`]);
    costs.push(term(overShareMinute, `o${r}`), term(farOverShareMinute, `p${r}`));
  });
  const chosen = whole ? `Binary\n${columns.map((_, i) => `x${i}`).join('\n')}\n` : '';
  return `Minimize\n cost: ${costs.join('\n ')}\nSubject To\n${rows.map(([name, row]) => ` ${name}: ${wrapped(row)}`).join('\n')}\n${chosen}End\n`;
}

const term = (factor: number, name: string) => `+ ${factor} ${name}`;
/** Lines of the form are bounded in length. */
const wrapped = (row: string) => row.replaceAll(/(.{400,}?) (?=[+-] )/g, '$1\n ');
