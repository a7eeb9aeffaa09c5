import { type Checked, computed, problem } from '../outcome.ts';
import { type Grade, tasks310 } from './thresholds.ts';

export interface InstallationTasks {
  /** whether the design review was complete and right */
  designReview: boolean;
  /** grades of the tasks that were done; null when not done */
  ductLeakage: Grade | null;
  airflow: Grade | null;
  fanWatts: Grade | null;
  charge: Grade | null;
}

export interface InstallationGrades {
  ductLeakage: Grade;
  airflow: Grade;
  fanWatts: Grade;
  charge: Grade;
  /** the first task that stopped the rest, or null */
  stoppedAt: 'design-review' | 'duct-leakage' | 'airflow' | null;
  remarks: string[];
}

/**
 * The grades of the tasks in their order: where design review, duct leakage or airflow does not meet its
 * threshold, the tasks behind it count as grade III, whatever was measured. A task that was not done counts as
 * III too.
 * Problems: `bad-grade` for a word that is no grade. Never throws.
 * Source: five tasks, of which the first three must meet thresholds to go on, as described at a bookshop page
 * (seen, `tasks310`); that what follows counts as III is from memory.
 */
export function installationGrades(tasks: InstallationTasks): Checked<InstallationGrades> {
  const known: (Grade | null)[] = ['I', 'II', 'III', null];
  const given = [tasks.ductLeakage, tasks.airflow, tasks.fanWatts, tasks.charge];
  const odd = given.find((grade) => !known.includes(grade));
  if (odd !== undefined)
    return problem('', 'bad-grade', `"${String(odd)}" is no grade; there are I, II and III.`);
  const ductLeakage = tasks.designReview ? (tasks.ductLeakage ?? 'III') : 'III';
  const airflow = ductLeakage === 'III' ? 'III' : (tasks.airflow ?? 'III');
  const goesOn = airflow !== 'III';
  const met = [tasks.designReview, ductLeakage !== 'III', goesOn];
  const stopped = met.indexOf(false);
  const stoppedAt = tasks310.gates[stopped] ?? null;
  return computed({
    ductLeakage,
    airflow,
    fanWatts: goesOn ? (tasks.fanWatts ?? 'III') : 'III',
    charge: goesOn ? (tasks.charge ?? 'III') : 'III',
    stoppedAt,
    remarks: stoppedAt ? [`what comes after ${stoppedAt} counts as grade III (from memory)`] : [],
  });
}
