import type { OrderedWork } from '@countercheck/assessment';
import { Tag } from '../../../components/marks/index.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import { useFormDraft } from '../entry/use-form-draft.ts';
import { useSheetView } from '../sheet/sheet-context.ts';
import { workName, type OpenWork } from './open-work.ts';
import { filledOf, nextStep, oneMoreRow, stepLabel, stepsOf, stepText } from './steps.ts';

interface Props {
  work: OrderedWork<OpenWork>;
  /** opens the pad at a step, or at the end where the reading is recorded */
  onEnter(step: string | null): void;
}

function useWork({ work: { work } }: Pick<Props, 'work'>) {
  const { sheet } = useSheetView();
  const form = useFormDraft(sheet, work.place, null);
  const steps = stepsOf(form.test, form.draft, form.instrument);
  return { ...form, steps, next: nextStep(steps, null, form.test, form.draft) };
}

const Name = ({ work }: Pick<OrderedWork<OpenWork>, 'work'>) => (
  <>
    {workName(work)} {work.safety && <Tag tone="brass">Safety</Tag>}
  </>
);

/** A test that comes later, in one line: a tap goes on where it was left, and the pad leads to each of its fields. */
export function WorkLine({ work, onEnter }: Props) {
  const { test, draft, steps, next } = useWork({ work });
  const { filled, needed } = filledOf(steps, test, draft);
  return (
    <li className="work" data-work={`${test.key}/${work.work.subjectId}`}>
      <h4>
        <button
          type="button"
          className={next ? 'work-step work-line' : 'work-step work-line work-step-ready'}
          onClick={() => onEnter(next?.key ?? null)}
        >
          <span className="work-line-name">
            <Name work={work.work} />
          </span>
          <span className="small work-line-state">
            {next ? `${filled} of ${needed}` : 'All entered: look and record'}
          </span>
          <span className="small soft work-line-reason">{work.reason}</span>
        </button>
      </h4>
    </li>
  );
}

/** The test that comes next: everything it asks, each a tap away, with what is entered already. */
export function WorkCard({ work, onEnter }: Props) {
  const system = useUnitSystem();
  const { test, draft, instrument, change, steps, next } = useWork({ work });
  const more = oneMoreRow(test, draft, instrument);
  return (
    <li className="work work-next" data-work={`${test.key}/${work.work.subjectId}`}>
      <h4>
        <Name work={work.work} />
      </h4>
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
        {more && (
          <button
            type="button"
            className="work-step work-step-empty"
            onClick={() => {
              change({ rows: more.rows });
              onEnter(more.begin);
            }}
          >
            <span className="small">Another</span>{' '}
            <span className="work-value">Add {test.rows?.rowLabel.toLowerCase()}</span>
          </button>
        )}
        {!next && (
          <button type="button" className="work-step work-step-ready" onClick={() => onEnter(null)}>
            <span className="small">All entered</span> <span className="work-value">Look and record</span>
          </button>
        )}
      </div>
    </li>
  );
}
