import { TextInput } from '@mantine/core';
import { dayOffBody, scheduling } from '@countercheck/contracts';
import { RaterChoice } from '../../components/choosers/index.ts';
import { Dialog, FormBody, said } from '../../components/feedback/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';

export const touchedByDaysOff = [scheduling.daysOff, scheduling.board, scheduling.tryVisit];

/** Days on which one rater, or nobody, works. */
export function DayOffDialog({ onClose }: { onClose: () => void }) {
  const now = today(useMe().company.timezone);
  const enter = useAction(scheduling.enterDayOff, { invalidates: touchedByDaysOff });
  const of = useContractForm({
    schema: dayOffBody,
    initialValues: { raterId: null as string | null, from: now, to: now, why: '' },
    send: async (body) => {
      await enter.mutateAsync({ body: body as BodyOf<typeof scheduling.enterDayOff> });
      said('Entered');
      onClose();
    },
  });
  const field = of.form.getInputProps;
  const { raterId, from } = of.form.getValues();
  return (
    <Dialog title="Enter days off" onClose={onClose}>
      <FormBody of={of} action="Enter" onCancel={onClose}>
        <RaterChoice
          label="Who"
          none="Everybody, such as on a holiday"
          value={raterId}
          onChange={(id) => of.form.setFieldValue('raterId', id)}
          error={of.form.errors['raterId'] as string | undefined}
        />
        <div className="fields">
          <TextInput
            type="date"
            label="First day"
            {...field('from')}
            onChange={(event) => {
              const day = event.currentTarget.value;
              of.form.setValues({ from: day, ...(of.form.getValues().to < day ? { to: day } : {}) });
            }}
          />
          <TextInput type="date" label="Last day" min={from} {...field('to')} />
        </div>
        <TextInput label="Why" description="Such as vacation, sick, training, a holiday." {...field('why')} />
        <p className="small soft">
          What is booked in these days stays; the week board warns of it, and “Plan again” gives it to others.
        </p>
      </FormBody>
    </Dialog>
  );
}
