import { NumberInput, Textarea, TextInput } from '@mantine/core';
import { correctiveActions, type CorrectiveAction } from '@countercheck/contracts';
import { Dialog, FormBody, said } from '../../components/feedback/index.ts';
import { Choice } from '../../components/fields/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { shareOf } from './shares.ts';

interface Props {
  action: CorrectiveAction;
  onClose: () => void;
}

const changed = {
  invalidates: [
    ...[correctiveActions.show, correctiveActions.list],
    ...[correctiveActions.holds, correctiveActions.bookingHolds],
  ],
};
const percent = (share: number | null) => (share === null ? '' : Number((share * 100).toFixed(2)));

/** What an open action asks for. */
export function ChangeForm({ action, onClose }: Props) {
  const change = useAction(correctiveActions.change, changed);
  const of = useContractForm({
    schema: correctiveActions.change.body,
    initialValues: {
      action: action.action,
      fileShare: percent(action.raisedFileShare) as string | number,
      fieldShare: percent(action.raisedFieldShare) as string | number,
      cleanFilesNeeded: action.cleanFilesNeeded as string | number,
      effectivenessDueOn: action.effectivenessDueOn,
    },
    toBody: ({ fileShare, fieldShare, cleanFilesNeeded, ...rest }) => ({
      ...rest,
      cleanFilesNeeded: Number(cleanFilesNeeded),
      raisedFileShare: shareOf(fileShare),
      raisedFieldShare: shareOf(fieldShare),
    }),
    send: async (body) => {
      await change.mutateAsync({ params: { id: action.id }, body });
      said('Changed');
      onClose();
    },
  });
  const field = of.form.getInputProps;
  return (
    <Dialog title="Change the action" onClose={onClose}>
      <FormBody of={of} action="Keep the change" onCancel={onClose}>
        <Textarea label="Action" autosize required {...field('action')} />
        <div className="fields">
          <NumberInput label="Share of files reviewed, %" min={0} max={100} {...field('fileShare')} />
          <NumberInput label="Share of houses re-tested, %" min={0} max={100} {...field('fieldShare')} />
          <NumberInput label="Clean files in a row" min={1} max={1000} {...field('cleanFilesNeeded')} />
          <TextInput type="date" label="Looked at again on" {...field('effectivenessDueOn')} />
        </div>
      </FormBody>
    </Dialog>
  );
}

/** Whether the action has helped; one that has not is looked at again. */
export function EffectivenessForm({ action, onClose }: Props) {
  const day = today(useMe().company.timezone);
  const check = useAction(correctiveActions.checkEffectiveness, changed);
  const of = useContractForm({
    schema: correctiveActions.checkEffectiveness.body,
    initialValues: { effective: 'yes', note: '', nextCheckOn: addDays(day, 60) },
    toBody: ({ effective, note, nextCheckOn }) => ({
      note,
      effective: effective === 'yes',
      nextCheckOn: effective === 'yes' ? null : nextCheckOn,
    }),
    send: async (body) => {
      await check.mutateAsync({ params: { id: action.id }, body });
      said('Kept');
      onClose();
    },
  });
  const { form } = of;
  return (
    <Dialog title="Has it helped?" onClose={onClose}>
      <FormBody of={of} action="Keep it" onCancel={onClose}>
        <Choice
          label="Has it helped?"
          options={[
            { value: 'yes', label: 'Yes' },
            { value: 'no', label: 'Not yet' },
          ]}
          value={form.getValues().effective}
          onChange={(value) => form.setFieldValue('effective', value ?? 'yes')}
        />
        <Textarea label="How one sees it" autosize required {...form.getInputProps('note')} />
        {form.getValues().effective === 'no' && (
          <TextInput type="date" label="Looked at again on" {...form.getInputProps('nextCheckOn')} />
        )}
      </FormBody>
    </Dialog>
  );
}

/** Closing an action that has helped. */
export function CloseForm({ action, onClose }: Props) {
  const close = useAction(correctiveActions.close, changed);
  const of = useContractForm({
    schema: correctiveActions.close.body,
    initialValues: { reason: '' },
    send: async (body) => {
      await close.mutateAsync({
        params: { id: action.id },
        body: body as BodyOf<typeof correctiveActions.close>,
      });
      said('The action is closed.');
      onClose();
    },
  });
  return (
    <Dialog title="Close the action" onClose={onClose}>
      <FormBody of={of} action="Close it" onCancel={onClose}>
        {action.held && <p>The hold on account of it ends.</p>}
        <Textarea label="Reason" autosize required {...of.form.getInputProps('reason')} />
      </FormBody>
    </Dialog>
  );
}
