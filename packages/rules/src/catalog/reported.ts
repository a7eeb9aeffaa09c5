import type { QuantityKind, SubjectKind, TestKey } from '@countercheck/measurement';
import type { Entry } from './entry.ts';

/** One figure that the installer signs for. */
export interface ReportedFigure {
  key: string;
  label: string;
  quantity: QuantityKind;
  subject: SubjectKind;
  /** the tests that re-measure it; while one of them is hidden for the subject, so is the figure */
  tests: readonly TestKey[];
  help: string;
}

const figure = (
  subject: SubjectKind,
  key: string,
  quantity: QuantityKind,
  tests: readonly TestKey[],
  label: string,
  help: string,
): ReportedFigure => ({ key, label, quantity, subject, tests, help });

const ductTests = ['duct-leakage-rough', 'duct-leakage-total'] as const;

/** The closed list of figures an installer reports, in stored units. The installer's form is built from it. */
export const reportedFigures: readonly ReportedFigure[] = [
  figure(
    'system',
    'supplyStatic',
    'staticPressure',
    ['supply-static'],
    'supply static pressure',
    'In the supply plenum, cooling speed.',
  ),
  figure(
    'system',
    'returnStatic',
    'staticPressure',
    ['return-static'],
    'return static pressure',
    'In the return plenum, written without its minus sign.',
  ),
  figure('system', 'airflow', 'airflow', [], 'airflow of the air handler', 'At the speed used for cooling.'),
  figure(
    'system',
    'ductLeakageAt25',
    'airflow',
    ductTests,
    'duct leakage at 25 Pa',
    'Total, with the air handler in place.',
  ),
  figure(
    'system',
    'fanPower',
    'power',
    [],
    'power of the air handler’s fan',
    'At the same speed as the airflow.',
  ),
  figure(
    'ventilator',
    'supplyFlow',
    'airflow',
    ['whole-house-ventilation'],
    'ventilation supply airflow',
    'Sum of the outdoor air brought in.',
  ),
  figure(
    'ventilator',
    'exhaustFlow',
    'airflow',
    ['whole-house-ventilation'],
    'ventilation exhaust airflow',
    'Sum of the air taken out.',
  ),
  figure(
    'kitchen',
    'exhaustFlow',
    'airflow',
    ['kitchen-exhaust'],
    'kitchen exhaust airflow',
    'Sum of all inlets of the hood.',
  ),
  figure('bath', 'exhaustFlow', 'airflow', ['bath-exhaust'], 'bath exhaust airflow', 'At the grille.'),
  figure(
    'bedroom',
    'supplyFlow',
    'airflow',
    ['bedroom-pressure', 'bedroom-relief'],
    'supply airflow of the bedroom',
    'Sum of its supply registers.',
  ),
];

const names = new Map<string, Entry>();
for (const each of reportedFigures) {
  const name = `reported.${each.key}`;
  const known = names.get(name);
  names.set(name, {
    name,
    from: 'reported',
    // a name that several kinds of subject share is spoken of without naming one of them
    label: known
      ? each.quantity === 'airflow' && each.key === 'exhaustFlow'
        ? 'exhaust airflow'
        : 'supply airflow'
      : each.label,
    kind: each.quantity,
    subjects: [...(known?.subjects ?? []), each.subject],
  });
}

/** The reported figures as named quantities. */
export const reportedEntries: readonly Entry[] = [...names.values()];
