import { Checkbox, NumberInput, Textarea, TextInput } from '@mantine/core';
import { correctiveActions, openCorrectiveBody, type CorrectiveAction } from '@countercheck/contracts';
import { BuilderChoice, RaterChoice } from '../../components/choosers/index.ts';
import { FormBody } from '../../components/feedback/index.ts';
import { Choice } from '../../components/fields/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { addDays, instantOf, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { shareOf } from './shares.ts';

interface Props {
  /** whom it is about, when one comes from what was found */
  raterId: string | null;
  onOpened: (action: CorrectiveAction) => void;
  onCancel: () => void;
}

/** Cause, action, and how one will see that it has helped. */
export function OpenForm({ raterId: about, onOpened, onCancel }: Props) {
  const zone = useMe().company.timezone;
  const day = today(zone);
  const open = useAction(correctiveActions.open, {
    invalidates: [correctiveActions.list, correctiveActions.holds],
    onDone: onOpened,
  });
  const of = useContractForm({
    schema: openCorrectiveBody,
    initialValues: {
      subject: 'rater' as 'rater' | 'builder',
      ...{ raterId: about, builderId: null as string | null, cause: '', action: '' },
      ...{ fileShare: '' as string | number, fieldShare: '' as string | number },
      cleanFilesNeeded: 5 as string | number,
      effectivenessDueOn: addDays(day, 90),
      ...{ hold: false, holdOn: day },
    },
    toBody: ({ fileShare, fieldShare, hold, holdOn, cleanFilesNeeded, ...rest }) => ({
      ...rest,
      cleanFilesNeeded: Number(cleanFilesNeeded),
      raisedFileShare: shareOf(fileShare),
      raisedFieldShare: shareOf(fieldShare),
      holdFrom: hold && rest.subject === 'rater' ? instantOf(holdOn, '00:00', zone) : null,
    }),
    send: (body) => open.mutateAsync({ body: body as BodyOf<typeof correctiveActions.open> }),
  });
  const { form } = of;
  const field = form.getInputProps;
  const { subject, hold, raterId, builderId } = form.getValues();
  return (
    <FormBody of={of} action="Open the action" onCancel={onCancel}>
      <div className="fields">
        <Choice
          label="About"
          options={[
            { value: 'rater', label: 'A rater' },
            { value: 'builder', label: 'A builder' },
          ]}
          value={subject}
          onChange={(value) => form.setFieldValue('subject', value === 'builder' ? 'builder' : 'rater')}
        />
        {subject === 'rater' ? (
          <RaterChoice
            none="Choose a rater"
            value={raterId}
            onChange={(id) => form.setFieldValue('raterId', id)}
            error={form.errors.raterId as string | undefined}
          />
        ) : (
          <BuilderChoice
            value={builderId}
            onChange={(id) => form.setFieldValue('builderId', id)}
            error={(form.errors.builderId ?? form.errors.raterId) as string | undefined}
          />
        )}
      </div>
      <Textarea
        label="Cause"
        description="What went wrong, and why."
        autosize
        minRows={2}
        required
        {...field('cause')}
      />
      <Textarea
        label="Action"
        description="What is done about it."
        autosize
        minRows={2}
        required
        {...field('action')}
      />
      <div className="fields">
        <NumberInput
          label="Share of files reviewed, %"
          description="Empty: the ordinary share."
          min={0}
          max={100}
          {...field('fileShare')}
          error={form.errors.raisedFileShare}
        />
        <NumberInput
          label="Share of houses re-tested, %"
          description="Empty: the ordinary share."
          min={0}
          max={100}
          {...field('fieldShare')}
          error={form.errors.raisedFieldShare}
        />
        <NumberInput
          label="Clean files in a row"
          description="That many end the raised shares and the hold."
          min={1}
          max={1000}
          {...field('cleanFilesNeeded')}
        />
        <TextInput type="date" label="Looked at again on" {...field('effectivenessDueOn')} />
      </div>
      {subject === 'rater' && (
        <>
          <Checkbox
            label="Hold the rater: he is booked for nothing until the clean files are reached"
            checked={hold}
            onChange={(event) => form.setFieldValue('hold', event.currentTarget.checked)}
          />
          {hold && (
            <TextInput type="date" label="Held from" {...field('holdOn')} error={form.errors.holdFrom} />
          )}
        </>
      )}
    </FormBody>
  );
}
