import { Button, Group, Textarea } from '@mantine/core';
import type { Reading, VisitSheet } from '@countercheck/contracts';
import type { ItemVerdict } from '@countercheck/rules';
import { lazy, Suspense, useRef } from 'react';
import { said } from '../../../components/feedback/index.ts';
import { Confirmations, PartFields, RowsEntry } from '../../../components/reading-form/index.ts';
import { Problem } from '../../../components/states/index.ts';
import { focusFirstBad } from '../../../lib/forms/index.ts';
import type { TestPlace } from '../sheet/test-places.ts';
import { AveragingTimer } from './averaging-timer.tsx';
import { InstrumentPicker } from './instrument-picker.tsx';
import { movingDisplays } from './instruments.ts';
import { LivePreview } from './live-preview.tsx';
import { useReadingForm } from './use-reading-form.ts';

const ImportPoints = lazy(() => import('./logged/import-points.tsx'));

interface Props {
  sheet: VisitSheet;
  place: TestPlace;
  verdict: Pick<ItemVerdict, 'item' | 'subjectId'>;
  corrects: Reading | null;
  onRecorded(): void;
  onCancel?: () => void;
}

/** The form of one test on one part of the house, made from the test's definition. */
export function TestForm(props: Props) {
  const { corrects, place, onCancel } = props;
  const box = useRef<HTMLFormElement>(null);
  const form = useReadingForm(props);
  const { test, draft, change, problems } = form;
  const moves = movingDisplays(test);
  const name = `${test.title}, ${place.subject.label}`;

  async function submit() {
    if (await form.save()) said(`Recorded: ${name}`);
    else focusFirstBad(box.current);
  }

  return (
    <form
      ref={box}
      tabIndex={-1}
      noValidate
      className="stack reading-form"
      aria-label={corrects ? `Correct: ${name}` : `Reading: ${name}`}
      onSubmit={(event) => {
        event.preventDefault();
        void submit();
      }}
    >
      {form.resumed && form.touched && (
        <p className="soft" role="status">
          This was typed before and kept on this device; it is not recorded yet.
        </p>
      )}
      <Confirmations
        confirmations={test.confirmations}
        ticked={draft.confirmations}
        problems={problems}
        onChange={(confirmations) => change({ confirmations })}
      />
      <InstrumentPicker
        test={test}
        offered={form.offered}
        value={draft.instrumentId}
        problem={problems['instrument']}
        onChange={(instrumentId) => change({ instrumentId })}
      />
      <PartFields
        fields={test.fields}
        choices={test.choices}
        part={draft}
        prefix=""
        problems={problems}
        instrument={form.instrument}
        onChange={(part) => change(part)}
      />
      {moves && <AveragingTimer path="" draft={draft} onChange={change} />}
      {moves && test.rows && (
        <Suspense fallback={null}>
          <ImportPoints
            test={test.key}
            definition={test.rows}
            filled={
              draft.rows.filter(({ typed }) => Object.values(typed).some(({ text }) => text.trim())).length
            }
            onRows={(rows) => change({ rows })}
          />
        </Suspense>
      )}
      {test.rows && (
        <RowsEntry
          definition={test.rows}
          rows={draft.rows}
          problems={problems}
          instrument={form.instrument}
          onChange={(rows) => change({ rows })}
        />
      )}
      <LivePreview form={form} />
      {corrects && (
        <Textarea
          size="md"
          label="Why is the reading corrected?"
          description="The former reading stays in the file with this reason."
          autosize
          maxLength={500}
          required
          value={draft.supersedeReason}
          error={problems['supersedeReason']}
          onChange={(event) => change({ supersedeReason: event.currentTarget.value })}
        />
      )}
      <Textarea
        size="md"
        label="Note"
        description="Weather, what was in the way. May be left out."
        autosize
        maxLength={500}
        value={draft.note}
        onChange={(event) => change({ note: event.currentTarget.value })}
      />
      {form.error && <Problem error={form.error} />}
      <Group gap="xs" grow preventGrowOverflow={false}>
        <Button type="submit" size="lg" loading={form.saving}>
          {corrects ? 'Record the correction' : 'Record the reading'}
        </Button>
        {onCancel && (
          <Button
            size="lg"
            variant="default"
            onClick={() => {
              form.clear();
              onCancel();
            }}
          >
            {corrects ? 'Leave it as it is' : 'Discard'}
          </Button>
        )}
      </Group>
    </form>
  );
}
