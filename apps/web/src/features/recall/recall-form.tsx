import { Textarea, TextInput } from '@mantine/core';
import { recall, type Instrument, type RecallSheet } from '@countercheck/contracts';
import { nativeUnit } from '@countercheck/measurement';
import { useState } from 'react';
import { useInstrumentsFound } from '../../components/choosers/index.ts';
import { FormBody } from '../../components/feedback/index.ts';
import { Choice, QuantityInput, SearchChoice } from '../../components/fields/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { useInstrument } from '../../lib/use-instrument.ts';
import { RangeFactors } from './range-factors.tsx';

/** What is known already, as a drift seen in the field proposes it; the bench says what it really is. */
export interface ProposedRecall {
  instrument: Instrument;
  /** yyyy-mm-dd */
  from?: string | undefined;
  to?: string | undefined;
  /** a gain, % */
  percent?: number | undefined;
}

interface RecallFormProps {
  proposed?: ProposedRecall | undefined;
  onDone: (begun: RecallSheet) => void;
  onCancel: () => void;
}

const kinds = [
  { value: 'offset', label: 'An offset: the same too much or too little everywhere' },
  { value: 'gain', label: 'A gain: a share of what is read' },
  { value: 'coefficient', label: 'The coefficient of a range' },
];
type Kind = 'offset' | 'gain' | 'coefficient';
interface ErrorFields {
  kind: Kind;
  value: number | null;
  percent: number | null;
  /** by range; what is not in here was right */
  factors: Record<string, number | null>;
}

function errorOf({ kind, value, percent, factors }: ErrorFields, ranges: readonly string[]) {
  if (kind === 'offset') return { kind, value };
  if (kind === 'gain') return { kind, percent };
  return { kind, ranges: ranges.map((range) => ({ range, factor: factors[range] ?? 1 })) };
}

/** The ranges of every calibration, since the error may be older than the newest. */
const rangesOf = (instrument: Instrument | null) => [
  ...new Set(instrument?.calibrations.flatMap(({ ranges }) => ranges.map(({ range }) => range)) ?? []),
];

/** Which instrument, on which days, and by how much it was wrong. */
export function RecallForm({ proposed, onDone, onCancel }: RecallFormProps) {
  const day = today(useMe().company.timezone);
  const [chosen, setChosen] = useState<string | null>(proposed?.instrument.id ?? null);
  const instrument = useInstrument(chosen ?? '').data ?? null;
  const ranges = rangesOf(instrument);
  const begin = useAction(recall.begin, { invalidates: [recall.list], onDone });
  const of = useContractForm({
    schema: recall.begin.body,
    initialValues: {
      instrumentId: proposed?.instrument.id ?? null,
      ...{ from: proposed?.from ?? addDays(day, -365), to: proposed?.to ?? day },
      error: {
        ...{ kind: proposed?.percent === undefined ? 'offset' : 'gain', percent: proposed?.percent ?? null },
        ...{ value: null, factors: {} },
      } as ErrorFields,
      ...{ reason: '', note: '' },
    },
    toBody: (values) => ({ ...values, error: errorOf(values.error, ranges) }),
    send: (body) => begin.mutateAsync({ body: body as BodyOf<typeof recall.begin> }),
  });
  const { form } = of;
  const field = form.getInputProps;
  const { kind } = form.getValues().error;

  return (
    <FormBody of={of} action="Work it out" onCancel={onCancel}>
      {proposed && (
        <p>
          Filled in from the readings of houses. They tell that something moved, not by how much the
          instrument is wrong: put in what the bench found.
        </p>
      )}
      <div className="fields">
        <SearchChoice
          {...(field('instrumentId') as { value: string | null; error?: string })}
          label="Instrument"
          placeholder="Label or serial number"
          useFound={useInstrumentsFound}
          chosenLabel={proposed && `${proposed.instrument.label}, ${proposed.instrument.serial}`}
          onChange={(id) => {
            setChosen(id);
            form.setFieldValue('instrumentId', id);
            form.setFieldValue('error.factors', {});
          }}
        />
        <TextInput type="date" label="First day out of tolerance" {...field('from')} />
        <TextInput type="date" label="Last day" {...field('to')} />
      </div>
      <div className="fields">
        <Choice
          label="What was wrong"
          options={kinds}
          value={kind}
          onChange={(value) => form.setFieldValue('error.kind', (value ?? 'offset') as Kind)}
        />
        {kind === 'offset' && (
          <QuantityInput
            kind="ratio"
            label={instrument ? `Shown less true, ${nativeUnit(instrument.kind)}` : 'Shown less true'}
            description="Below zero when it showed too little."
            {...field('error.value')}
          />
        )}
        {kind === 'gain' && (
          <QuantityInput
            kind="ratio"
            label="Too much, %"
            description="Below zero when it showed too little."
            {...field('error.percent')}
          />
        )}
      </div>
      {kind === 'coefficient' && (
        <RangeFactors
          ranges={ranges}
          factors={form.getValues().error.factors}
          errors={form.errors}
          onChange={(factors) => form.setFieldValue('error.factors', factors)}
        />
      )}
      <Textarea
        label="How it was found"
        description="With the certificate; it stands in the letters."
        autosize
        required
        {...field('reason')}
      />
      <Textarea
        label="Note"
        description="For the company only; may be left out."
        autosize
        {...field('note')}
      />
    </FormBody>
  );
}
