import { Textarea, TextInput } from '@mantine/core';
import { instruments, recall, type Instrument, type RecallSheet } from '@countercheck/contracts';
import { nativeUnit } from '@countercheck/measurement';
import { useState } from 'react';
import { FormBody } from '../../components/feedback/index.ts';
import { Choice, QuantityInput, SearchChoice } from '../../components/fields/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { RangeFactors } from './range-factors.tsx';

interface RecallFormProps {
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
  ranges: { range: string; factor: number | null }[];
}

function errorOf({ kind, value, percent, ranges }: ErrorFields) {
  if (kind === 'offset') return { kind, value };
  return kind === 'gain' ? { kind, percent } : { kind, ranges };
}

/** The ranges of every calibration, since the error may be older than the newest. */
const rangesOf = (instrument: Instrument) => [
  ...new Set(instrument.calibrations.flatMap(({ ranges }) => ranges.map(({ range }) => range))),
];

/** Which instrument, on which days, and by how much it was wrong. */
export function RecallForm({ onDone, onCancel }: RecallFormProps) {
  const day = today(useMe().company.timezone);
  const [instrument, setInstrument] = useState<Instrument | null>(null);
  const [found, setFound] = useState(new Map<string, Instrument>());
  const begin = useAction(recall.begin, { invalidates: [recall.list], onDone });
  const of = useContractForm({
    schema: recall.begin.body,
    initialValues: {
      instrumentId: null as string | null,
      ...{ from: addDays(day, -365), to: day },
      error: { kind: 'offset', value: null, percent: null, ranges: [] } as ErrorFields,
      ...{ reason: '', note: '' },
    },
    toBody: (values) => ({ ...values, error: errorOf(values.error) }),
    send: (body) => begin.mutateAsync({ body: body as BodyOf<typeof recall.begin> }),
  });
  const { form } = of;
  const field = form.getInputProps;
  const { kind } = form.getValues().error;

  function useInstrumentsFound(search: string) {
    const { data } = useRoute(instruments.list, { query: { search, pageSize: 20 } }, { keepPrevious: true });
    const items = data?.items ?? [];
    if (items.some(({ id }) => !found.has(id)))
      setFound(new Map([...found, ...items.map((each) => [each.id, each] as const)]));
    return items.map(({ id, label, serial }) => ({ value: id, label: `${label}, ${serial}` }));
  }

  return (
    <FormBody of={of} action="Work it out" onCancel={onCancel}>
      <div className="fields">
        <SearchChoice
          {...(field('instrumentId') as { value: string | null; error?: string })}
          label="Instrument"
          placeholder="Label or serial number"
          useFound={useInstrumentsFound}
          onChange={(id) => {
            const next = (id && found.get(id)) || null;
            form.setFieldValue('instrumentId', id);
            setInstrument(next);
            form.setFieldValue(
              'error.ranges',
              next ? rangesOf(next).map((range) => ({ range, factor: 1 })) : [],
            );
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
        <RangeFactors form={form} ranges={form.getValues().error.ranges.map(({ range }) => range)} />
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
