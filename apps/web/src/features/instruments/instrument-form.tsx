import { Checkbox, Textarea, TextInput } from '@mantine/core';
import { instruments, type Instrument } from '@countercheck/contracts';
import { nativeUnit } from '@countercheck/measurement';
import { FormBody, said } from '../../components/feedback/index.ts';
import { Choice, optionsOf, QuantityInput } from '../../components/fields/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { instrumentWords } from '../../lib/words/instruments.ts';

interface InstrumentFormProps {
  instrument?: Instrument;
  onDone: (instrument: Instrument) => void;
  onCancel: () => void;
}

/** An instrument and its stated accuracy. Figures are in the unit it reads in, whatever units a page shows. */
export function InstrumentForm({ instrument, onDone, onCancel }: InstrumentFormProps) {
  const invalidates = [instruments.list, instruments.show];
  const register = useAction(instruments.register, { invalidates });
  const change = useAction(instruments.change, { invalidates });
  const of = useContractForm({
    schema: instruments.register.body,
    initialValues: {
      kind: instrument?.kind ?? 'manometer',
      label: instrument?.label ?? '',
      serial: instrument?.serial ?? '',
      accuracyPercent: (instrument?.accuracyPercent ?? null) as number | null,
      accuracyAbsolute: (instrument?.accuracyAbsolute ?? null) as number | null,
      resolution: instrument?.resolution ?? null,
      note: instrument?.note ?? '',
      active: instrument?.active ?? true,
    },
    send: async ({ kind, active, ...values }) => {
      const body = values as unknown as Omit<BodyOf<typeof instruments.register>, 'kind'>;
      const saved = instrument
        ? await change.mutateAsync({ params: { id: instrument.id }, body: { ...body, active } })
        : await register.mutateAsync({ body: { ...body, kind } });
      said('Instrument saved');
      onDone(saved);
    },
  });
  const field = of.form.getInputProps;
  const unit = nativeUnit(of.form.getValues().kind);
  return (
    <FormBody of={of} action="Save" onCancel={onCancel}>
      <div className="fields">
        <Choice
          label="Kind"
          options={optionsOf(instrumentWords)}
          disabled={Boolean(instrument)}
          {...field('kind')}
        />
        <TextInput label="Label" placeholder="Manometer 3" {...field('label')} />
        <TextInput label="Serial number" {...field('serial')} />
        <QuantityInput kind="ratio" label="Accuracy, % of reading" {...field('accuracyPercent')} />
        <QuantityInput kind="ratio" label={`Accuracy, at least (${unit})`} {...field('accuracyAbsolute')} />
        <QuantityInput kind="ratio" label={`Smallest step shown (${unit})`} {...field('resolution')} />
      </div>
      <Textarea label="Note" autosize minRows={2} {...field('note')} />
      {instrument && <Checkbox label="In use" {...field('active', { type: 'checkbox' })} />}
    </FormBody>
  );
}
