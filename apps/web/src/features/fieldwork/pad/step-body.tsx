import { Textarea, TextInput } from '@mantine/core';
import { instrumentWords } from '@countercheck/measurement';
import { Caution } from '../../../components/marks/index.ts';
import { Confirmations, type EnteredRow } from '../../../components/reading-form/index.ts';
import { AveragingTimer } from '../entry/averaging-timer.tsx';
import { instrumentName } from '../entry/instruments.ts';
import type { useReadingForm } from '../entry/use-reading-form.ts';
import { typedAt, type Step } from '../work/steps.ts';
import { NumberStep } from './number-step.tsx';
import { OptionsStep } from './options-step.tsx';

interface Props {
  step: Step;
  form: ReturnType<typeof useReadingForm>;
  last: { text: string; where: string } | null;
  moves: boolean;
  onNext(): void;
}

/** What one step asks, by its kind; every change is kept at once. */
export function StepBody({ step, form, last, moves, onNext }: Props) {
  const { test, draft, change, problems } = form;
  const row = step.row === null ? null : (draft.rows[step.row] ?? null);
  const within = row ? `${row.label}: ` : '';
  const inRow = (changes: Partial<EnteredRow>) =>
    change({ rows: draft.rows.map((each) => (each === row ? { ...each, ...changes } : each)) });
  const part = row ?? draft;
  switch (step.kind) {
    case 'set-up':
      return (
        <div className="stack" data-autofocus tabIndex={-1} role="group" aria-label="Set up">
          {test.cautions.map((caution) => (
            <Caution key={caution}>{caution}</Caution>
          ))}
          <p className="soft">{test.how}</p>
          <Confirmations
            confirmations={test.confirmations}
            ticked={draft.confirmations}
            problems={problems}
            onChange={(confirmations) => change({ confirmations })}
          />
        </div>
      );
    case 'instrument': {
      const kinds = test.instrumentKinds.map(instrumentWords).join(' or ');
      return (
        <OptionsStep
          title="Instrument"
          help={form.offered.length === 0 ? `The company has no ${kinds} on its list; ask the office.` : ''}
          options={form.offered.map((each) => ({
            value: each.facts.id,
            label: instrumentName(each),
            help: each.state.words,
          }))}
          value={draft.instrumentId}
          problem={problems['instrument']}
          onPick={(instrumentId) => {
            change({ instrumentId });
            onNext();
          }}
        />
      );
    }
    case 'choice':
      return (
        <OptionsStep
          title={`${within}${step.choice.label}`}
          help={
            step.choice.from === 'instrument-range' && !form.instrument
              ? 'Choose the instrument first; its ranges come up here.'
              : (step.choice.help ?? '')
          }
          options={step.options}
          value={part.choices[step.choice.key] ?? null}
          problem={problems[step.key]}
          onPick={(value) => {
            const choices = { ...part.choices, [step.choice.key]: value };
            if (row) inRow({ choices });
            else change({ choices });
            onNext();
          }}
        />
      );
    case 'number':
      return (
        <>
          <NumberStep
            field={step.field}
            within={within}
            entry={typedAt(step, draft)}
            problem={problems[step.key]}
            last={last}
            onChange={(entry) => {
              const typed = { ...part.typed, [step.field.key]: entry };
              if (row) inRow({ typed });
              else change({ typed });
            }}
          />
          {moves && <AveragingTimer path={step.key} draft={draft} onChange={change} />}
        </>
      );
    case 'name':
      return (
        <TextInput
          data-autofocus
          size="xl"
          label={`${test.rows?.rowLabel ?? ''} ${(step.row ?? 0) + 1}: name`}
          value={row?.label ?? ''}
          maxLength={80}
          onChange={(event) => inRow({ label: event.currentTarget.value })}
        />
      );
    case 'note':
      return (
        <Textarea
          data-autofocus
          size="lg"
          label="Note"
          description="Weather, what was in the way. May be left out."
          autosize
          maxLength={500}
          value={draft.note}
          onChange={(event) => change({ note: event.currentTarget.value })}
        />
      );
  }
}
