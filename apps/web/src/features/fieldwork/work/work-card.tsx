import type { OrderedWork } from '@countercheck/assessment';
import { Tag } from '../../../components/marks/index.ts';
import { nextRow } from '../../../components/reading-form/index.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import { useFormDraft } from '../entry/use-form-draft.ts';
import { useSheetView } from '../sheet/sheet-context.ts';
import { workName, type OpenWork } from './open-work.ts';
import { nextStep, stepLabel, stepsOf, stepText } from './steps.ts';

interface Props {
  work: OrderedWork<OpenWork>;
  /** opens the pad at a step, or at the end where the reading is recorded */
  onEnter(step: string | null): void;
}

/** One test that is open: everything it asks, each a tap away, with what is entered already. */
export function WorkCard({ work, onEnter }: Props) {
  const { sheet } = useSheetView();
  const system = useUnitSystem();
  const { test, draft, instrument, change } = useFormDraft(sheet, work.work.place, null);
  const steps = stepsOf(test, draft, instrument);
  const { rows } = test;
  const complete = nextStep(steps, null, test, draft) === null;

  function addRow() {
    if (!rows) return;
    const more = [...draft.rows, nextRow(draft.rows, rows.rowLabel)];
    change({ rows: more });
    const asked = stepsOf(test, { ...draft, rows: more }, instrument).filter(
      ({ row }) => row === more.length - 1,
    );
    onEnter((asked.find(({ kind }) => kind === 'number') ?? asked[0])?.key ?? null);
  }

  return (
    <li className="work" data-work={`${test.key}/${work.work.subjectId}`}>
      <h3>
        {workName(work.work)} {work.work.safety && <Tag tone="brass">Safety</Tag>}
      </h3>
      <p className="soft small">{work.reason}</p>
      <div className="work-steps" role="group" aria-label={workName(work.work)}>
        {steps.map((step) => {
          const row = step.row === null ? null : draft.rows[step.row];
          const text = stepText(step, test, draft, instrument, system);
          return (
            <button
              key={step.key}
              type="button"
              className={text === '' ? 'work-step work-step-empty' : 'work-step'}
              data-step={step.key}
              onClick={() => onEnter(step.key)}
            >
              <span className="small">
                {row && step.kind !== 'name' ? `${row.label}: ` : ''}
                {stepLabel(step, test)}
              </span>{' '}
              <span className="work-value">{text || (step.required ? 'enter' : 'may be left out')}</span>
            </button>
          );
        })}
        {rows && draft.rows.length < rows.max && (
          <button type="button" className="work-step work-step-empty" onClick={addRow}>
            <span className="small">Another</span>{' '}
            <span className="work-value">Add {rows.rowLabel.toLowerCase()}</span>
          </button>
        )}
        {complete && (
          <button type="button" className="work-step work-step-ready" onClick={() => onEnter(null)}>
            <span className="small">All entered</span> <span className="work-value">Look and record</span>
          </button>
        )}
      </div>
    </li>
  );
}
