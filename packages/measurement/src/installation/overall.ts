import { type Checked, computed, problem } from '../outcome.ts';
import { type Gate, type Grade, tasks310 } from './thresholds.ts';

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
  /** the first gate that was not passed, or null */
  stoppedAt: Gate | null;
  remarks: string[];
}

/**
 * The grades of the tasks in their order: behind the first gate that is not passed every task counts as grade
 * III, whatever was measured. A task that was not done counts as III too.
 * @param gates `tasks310.gates` or, by the other description that was seen, `tasks310.fewerGates`
 * Problems: `bad-grade` for a word that is no grade. Never throws.
 * Source: `tasks310` (seen); that what follows counts as III is from memory.
 */
export function installationGrades(
  tasks: InstallationTasks,
  gates: readonly Gate[] = tasks310.gates,
): Checked<InstallationGrades> {
  const known: (Grade | null)[] = ['I', 'II', 'III', null];
  for (const task of ['ductLeakage', 'airflow', 'fanWatts', 'charge'] as const) {
    if (known.includes(tasks[task])) continue;
    return problem(task, 'bad-grade', `"${String(tasks[task])}" is no grade; there are I, II and III.`);
  }
  const passed: Record<Gate, boolean> = {
    'design-review': tasks.designReview,
    'duct-leakage': (tasks.ductLeakage ?? 'III') !== 'III',
    airflow: (tasks.airflow ?? 'III') !== 'III',
  };
  const stoppedAt = tasks310.gates.find((gate) => gates.includes(gate) && !passed[gate]) ?? null;
  const last = stoppedAt ? tasks310.order.indexOf(stoppedAt) : tasks310.order.length;
  const grade = (task: (typeof tasks310.order)[number], found: Grade | null): Grade =>
    tasks310.order.indexOf(task) > last ? 'III' : (found ?? 'III');
  return computed({
    ductLeakage: grade('duct-leakage', tasks.ductLeakage),
    airflow: grade('airflow', tasks.airflow),
    fanWatts: grade('fan-watts', tasks.fanWatts),
    charge: grade('charge', tasks.charge),
    stoppedAt,
    remarks: stoppedAt ? [`what comes after ${stoppedAt} counts as grade III (from memory)`] : [],
  });
}
