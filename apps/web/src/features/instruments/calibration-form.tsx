import { TextInput } from '@mantine/core';
import { instruments, type Instrument } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { fieldsOf, rangeOf } from './range-fields.ts';
import { Ranges } from './ranges.tsx';
import './instruments.css';

/** Records a calibration. Most ranges keep their name from one to the next, so the last ones are taken over. */
export function CalibrationForm({ instrument, onDone }: { instrument: Instrument; onDone: () => void }) {
  const day = today(useMe().company.timezone);
  const calibrate = useAction(instruments.calibrate, { invalidates: [instruments.list, instruments.show] });
  const of = useContractForm({
    schema: instruments.calibrate.body,
    initialValues: {
      calibratedOn: day,
      dueOn: addDays(day, 365),
      certificate: '',
      ranges: (instrument.calibrations[0]?.ranges ?? []).map(fieldsOf),
    },
    toBody: (values) => ({ ...values, ranges: values.ranges.map(rangeOf) }),
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
      <Ranges form={of.form} ranges={of.form.getValues().ranges} />
    </FormBody>
  );
}
