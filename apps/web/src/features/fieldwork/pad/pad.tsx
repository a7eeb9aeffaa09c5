import { Button, Drawer } from '@mantine/core';
import { subjectsOf, type OrderedWork } from '@countercheck/assessment';
import { useEffect, useRef, useState } from 'react';
import { said } from '../../../components/feedback/index.ts';
import { Problem } from '../../../components/states/index.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import { useUndo } from '../data/undo.ts';
import { LivePreview } from '../entry/live-preview.tsx';
import { movingDisplays } from '../entry/instruments.ts';
import { useFormDraft } from '../entry/use-form-draft.ts';
import { useReadingForm } from '../entry/use-reading-form.ts';
import { useSheetView } from '../sheet/sheet-context.ts';
import { fileOf } from '../sheet/verdicts.ts';
import { workName, type OpenWork } from '../work/open-work.ts';
import { nextStep, oneMoreRow, stepsOf, whereLeft } from '../work/steps.ts';
import { FieldStrip } from './field-strip.tsx';
import { lastNumber } from './last-number.ts';
import { StepBody } from './step-body.tsx';
import './pad.css';

interface Props {
  work: OrderedWork<OpenWork>;
  /** the step to begin with, or where it was left; null = the end, where the result is looked at and recorded */
  begin: string | null;
  /** what comes after this test in the order of work */
  next: OrderedWork<OpenWork> | null;
  onGoOn(work: OrderedWork<OpenWork>): void;
  onClose(): void;
}

/** One thing after the other, on the lower half of the screen where a thumb reaches. */
export default function Pad(props: Props) {
  const { sheet } = useSheetView();
  const { test, draft, instrument } = useFormDraft(sheet, props.work.work.place, null);
  // Found once: what is missing first changes with every key.
  const [begin] = useState(() =>
    props.begin === whereLeft
      ? (nextStep(stepsOf(test, draft, instrument), null, test, draft)?.key ?? null)
      : props.begin,
  );
  return <OpenPad {...props} begin={begin} />;
}

function OpenPad({ work, begin, next, onGoOn, onClose }: Props) {
  const { sheet } = useSheetView();
  const system = useUnitSystem();
  const { place, item } = work.work;
  const [at, setAt] = useState(begin);
  const [recorded, setRecorded] = useState<string | null>(null);
  const body = useRef<HTMLFormElement>(null);
  const form = useReadingForm({
    ...{ sheet, place, verdict: item, corrects: null, judged: at === null },
    onRecorded: setRecorded,
  });
  const { test, draft } = form;
  const steps = stepsOf(test, draft, form.instrument);
  const step = steps.find(({ key }) => key === at) ?? null;
  const more = oneMoreRow(test, draft, form.instrument);
  const undoOf = useUndo();
  const reading = sheet.readings.find(({ id }) => id === recorded);
  const undo = reading ? undoOf(reading) : null;
  const name = workName(work.work);
  const goOn = () => setAt(nextStep(steps, at, test, draft)?.key ?? null);

  useEffect(() => {
    body.current?.querySelector<HTMLElement>('[data-autofocus]')?.focus();
  }, [at, recorded]);

  async function record() {
    if (await form.save()) return said(`Recorded: ${name}`);
    const missing = steps.find(({ key }) => form.wrong.some((path) => path.startsWith(key)));
    if (missing) setAt(missing.key);
  }
  async function takeBack(undo: () => Promise<boolean>) {
    if (!(await undo())) return said('It is on its way already: correct it under its item.');
    setRecorded(null);
    setAt(null);
  }
  const labelOf = (id: string) => subjectsOf(fileOf(sheet)).find((each) => each.id === id)?.label ?? '';
  const unfinished = nextStep(steps, null, test, draft);

  return (
    <Drawer
      opened
      onClose={onClose}
      position="bottom"
      // At once: whoever wears gloves has waited enough.
      transitionProps={{ duration: 0 }}
      size="auto"
      title={name}
      classNames={{ content: 'pad', body: 'pad-body' }}
      closeButtonProps={{ 'aria-label': 'Close' }}
    >
      <form
        ref={body}
        noValidate
        className="stack"
        aria-label={`Enter: ${name}`}
        onSubmit={(event) => {
          event.preventDefault();
          if (recorded !== null) onClose();
          else if (step) goOn();
          else void record();
        }}
      >
        {recorded === null && (
          <FieldStrip
            test={test}
            draft={draft}
            steps={steps}
            at={step?.key ?? null}
            onGo={setAt}
            onMore={
              more &&
              (() => {
                form.change({ rows: more.rows });
                setAt(more.begin);
              })
            }
          />
        )}
        {recorded !== null ? (
          <>
            <p role="status">
              Recorded.{' '}
              {next ? `Next: ${workName(next.work)}. ${next.reason}` : 'Nothing is left to be read.'}
            </p>
            {next && (
              <Button size="xl" data-autofocus onClick={() => onGoOn(next)}>
                Go on with the next test
              </Button>
            )}
            {undo && (
              <Button size="xl" variant="default" onClick={() => void takeBack(undo)}>
                Undo: it is not sent yet
              </Button>
            )}
            <Button size="xl" variant="default" type="submit" {...(next ? {} : { 'data-autofocus': true })}>
              Close
            </Button>
          </>
        ) : step ? (
          <>
            <StepBody
              key={step.key}
              step={step}
              form={form}
              last={lastNumber(step, sheet.readings, test.key, place.subject.id, labelOf, system)}
              moves={movingDisplays(test)}
              onNext={goOn}
            />
            <Button size="xl" type="submit" className="pad-next">
              Save and next
            </Button>
          </>
        ) : (
          <>
            <LivePreview form={form} />
            {form.error && <Problem error={form.error} />}
            {form.attempted &&
              [...new Set(Object.values(form.problems))].map((words) => (
                <p key={words} className="field-problem">
                  {words}
                </p>
              ))}
            <Button size="xl" type="submit" data-autofocus loading={form.saving}>
              {unfinished ? 'Show what is missing' : 'Record the reading'}
            </Button>
          </>
        )}
      </form>
    </Drawer>
  );
}
