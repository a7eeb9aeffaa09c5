import { ActionIcon, Button, TextInput } from '@mantine/core';
import { IconPlus, IconTrash } from '@tabler/icons-react';
import { instruments, type Instrument } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import { QuantityInput } from '../../components/fields/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useContractForm, type AnyForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import './instruments.css';

/** Records a calibration. Most ranges keep their name from one to the next, so the last ones are taken over. */
export function CalibrationForm({ instrument, onDone }: { instrument: Instrument; onDone: () => void }) {
  const day = today(useMe().company.timezone);
  const calibrate = useAction(instruments.calibrate, { invalidates: [instruments.list] });
  const of = useContractForm({
    schema: instruments.calibrate.body,
    initialValues: {
      calibratedOn: day,
      dueOn: addDays(day, 365),
      certificate: '',
      ranges: instrument.calibrations[0]?.ranges ?? [],
    },
    send: async (values) => {
      const body = values as BodyOf<typeof instruments.calibrate>;
      await calibrate.mutateAsync({ params: { id: instrument.id }, body });
      said('Calibration recorded');
      onDone();
    },
  });
  const field = of.form.getInputProps;
  return (
    <FormBody of={of} action="Record" onCancel={onDone}>
      <div className="fields">
        <TextInput type="date" label="Calibrated on" {...field('calibratedOn')} />
        <TextInput type="date" label="Due again on" {...field('dueOn')} />
        <TextInput label="Certificate" {...field('certificate')} />
      </div>
      <Ranges form={of.form} count={of.form.getValues().ranges.length} />
    </FormBody>
  );
}

function Ranges({ form, count }: { form: AnyForm; count: number }) {
  const field = form.getInputProps;
  return (
    <fieldset className="ranges">
      <legend>Ranges (ring, plate or hole setting): flow in cfm = c × Pa ^ n</legend>
      {Array.from({ length: count }, (_, index) => (
        <div className="row ranges-row" key={index}>
          <TextInput label="Range" {...field(`ranges.${index}.range`)} />
          <QuantityInput kind="ratio" label="c" {...field(`ranges.${index}.c`)} />
          <QuantityInput kind="ratio" label="n" {...field(`ranges.${index}.n`)} />
          <QuantityInput kind="ratio" label="From, Pa" {...field(`ranges.${index}.minPa`)} />
          <QuantityInput kind="ratio" label="To, Pa" {...field(`ranges.${index}.maxPa`)} />
          <ActionIcon
            variant="subtle"
            color="red"
            size="lg"
            aria-label={`Remove range ${index + 1}`}
            onClick={() => form.removeListItem('ranges', index)}
          >
            <IconTrash size={18} />
          </ActionIcon>
        </div>
      ))}
      <Button
        size="xs"
        variant="default"
        leftSection={<IconPlus size={14} />}
        onClick={() => form.insertListItem('ranges', { range: '', c: null, n: 0.5, minPa: 10, maxPa: 300 })}
      >
        Add a range
      </Button>
    </fieldset>
  );
}
