import { Textarea, TextInput } from '@mantine/core';
import { changeVisitRequestBody, scheduling, type VisitRequest } from '@countercheck/contracts';
import { Dialog, FormBody, said } from '../../../components/feedback/index.ts';
import { Choice, optionsOf } from '../../../components/fields/index.ts';
import type { BodyOf } from '../../../lib/client.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { useAction } from '../../../lib/query.ts';
import { accessWords, deadlineWords } from '../../../lib/words/scheduling.ts';

export function ChangeDialog({ request, onClose }: { request: VisitRequest; onClose: () => void }) {
  const change = useAction(scheduling.changeRequest, {
    invalidates: [scheduling.requests, scheduling.request, scheduling.board],
  });
  const of = useContractForm({
    schema: changeVisitRequestBody,
    initialValues: {
      ...{ earliestOn: request.earliestOn, deadlineOn: request.deadlineOn ?? '' },
      deadlineWhy: (request.deadlineWhy ?? 'agreed') as string | null,
      minutes: String(request.minutes),
      access: request.access as string | null,
      ...{ accessNote: request.accessNote ?? '', note: request.note ?? '' },
      ...{ openFrom: request.openFrom ?? '', openTo: request.openTo ?? '' },
    },
    toBody: (values) =>
      ({
        ...values,
        deadlineOn: values.deadlineOn || null,
        openFrom: values.openFrom || null,
        openTo: values.openTo || null,
        minutes: values.minutes.trim() === '' ? NaN : Number(values.minutes),
      }) as BodyOf<typeof scheduling.changeRequest>,
    send: async (body) => {
      await change.mutateAsync({ params: { id: request.id }, body });
      said('Request changed');
      onClose();
    },
  });
  const field = of.form.getInputProps;
  return (
    <Dialog title={`Change the request for ${request.house.address}`} onClose={onClose}>
      <FormBody of={of} action="Save" onCancel={onClose}>
        <div className="fields">
          <TextInput type="date" label="From" {...field('earliestOn')} />
          <TextInput type="date" label="By, if there is a deadline" {...field('deadlineOn')} />
          <Choice label="Why by then" options={optionsOf(deadlineWords)} {...field('deadlineWhy')} />
          <TextInput label="Minutes at the house" inputMode="numeric" {...field('minutes')} />
          <Choice
            label="How the rater gets in"
            none="Not known"
            options={optionsOf(accessWords)}
            {...field('access')}
          />
          <TextInput type="time" label="Somebody is there from" {...field('openFrom')} />
          <TextInput type="time" label="until" {...field('openTo')} />
        </div>
        <TextInput label="Where the key is, or whom to call" {...field('accessNote')} />
        <Textarea label="Note" autosize minRows={2} {...field('note')} />
      </FormBody>
    </Dialog>
  );
}
