import { Textarea, TextInput } from '@mantine/core';
import { askVisitBody, houses, scheduling } from '@countercheck/contracts';
import type { BodyOf } from '../../lib/client.ts';
import { today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { accessWords, deadlineWords } from '../../lib/words/scheduling.ts';
import { HouseChoice } from '../choosers/index.ts';
import { Dialog, FormBody, said } from '../feedback/index.ts';
import { Choice, optionsOf } from '../fields/index.ts';

const kinds = { rough: 'Rough-in, ducts open to sight', final: 'Finished, equipment runs' };

interface AskVisitDialogProps {
  house?: { id: string; address: string };
  onClose: () => void;
}

/** Says that a house is ready at rough-in or finished, and when the visit is wanted. */
export function AskVisitDialog({ house, onClose }: AskVisitDialogProps) {
  const zone = useMe().company.timezone;
  const ask = useAction(scheduling.ask, { invalidates: [scheduling.requests, houses.events] });
  const of = useContractForm({
    schema: askVisitBody,
    initialValues: {
      houseId: house?.id ?? (null as string | null),
      kind: 'final',
      ...{ earliestOn: today(zone), deadlineOn: '', deadlineWhy: 'before_closing' as string | null },
      ...{ access: 'contact' as string | null, accessNote: '', note: '' },
      ...{ openFrom: '', openTo: '' },
    },
    toBody: (values) =>
      ({
        ...values,
        earliestOn: values.earliestOn || null,
        deadlineOn: values.deadlineOn || null,
        openFrom: values.openFrom || null,
        openTo: values.openTo || null,
      }) as BodyOf<typeof scheduling.ask>,
    send: async (body) => {
      await ask.mutateAsync({ body });
      said('Visit asked for');
      onClose();
    },
  });
  const field = of.form.getInputProps;
  return (
    <Dialog title={house ? `Ask for a visit to ${house.address}` : 'Ask for a visit'} onClose={onClose}>
      <FormBody of={of} action="Ask" onCancel={onClose}>
        {!house && (
          <HouseChoice
            value={of.form.getValues().houseId}
            onChange={(id) => of.form.setFieldValue('houseId', id)}
            error={of.form.errors.houseId as string | undefined}
          />
        )}
        <Choice label="The house is" options={optionsOf(kinds)} {...field('kind')} />
        <div className="fields">
          <TextInput type="date" label="From" {...field('earliestOn')} />
          <TextInput type="date" label="By, if there is a deadline" {...field('deadlineOn')} />
          <Choice label="Why by then" options={optionsOf(deadlineWords)} {...field('deadlineWhy')} />
          <Choice label="How the rater gets in" options={optionsOf(accessWords)} {...field('access')} />
          <TextInput type="time" label="Somebody is there from" {...field('openFrom')} />
          <TextInput type="time" label="until" {...field('openTo')} />
        </div>
        <TextInput label="Where the key is, or whom to call" {...field('accessNote')} />
        <Textarea label="Note" autosize minRows={2} {...field('note')} />
      </FormBody>
    </Dialog>
  );
}
