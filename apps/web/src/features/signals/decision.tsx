import { Checkbox, Group, Textarea, TextInput } from '@mantine/core';
import { signals, type SignalFinding } from '@countercheck/contracts';
import { DialogButton, FormBody, said } from '../../components/feedback/index.ts';
import { ButtonLink } from '../../components/page/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { useMe, useRole } from '../../lib/session.ts';

const invalidates = [signals.finding, signals.findings];
const daysToDo = 30;
const proposedRetests = 1;
const proposedReviews = 5;

interface DecisionProps {
  finding: SignalFinding;
  onDone: () => void;
  onCancel: () => void;
}

function DismissForm({ finding: { id }, onDone, onCancel }: DecisionProps) {
  const dismiss = useAction(signals.dismiss, { invalidates, onDone });
  const of = useContractForm({
    schema: signals.dismiss.body,
    initialValues: { reason: '' },
    toBody: (values) => values,
    send: (body) => dismiss.mutateAsync({ params: { id }, body }),
  });
  return (
    <FormBody of={of} action="Lay it aside" onCancel={onCancel}>
      <Textarea
        label="Why"
        description="Stands with the finding and in the log."
        autosize
        required
        {...of.form.getInputProps('reason')}
      />
    </FormBody>
  );
}

function OrderForm({ finding: { id, behind }, onDone, onCancel }: DecisionProps) {
  const day = today(useMe().company.timezone);
  const order = useAction(signals.order, { invalidates, onDone });
  const ids = behind.map((house) => house.id);
  const of = useContractForm({
    schema: signals.order.body,
    initialValues: {
      ...{ reviews: ids.slice(0, proposedReviews), retests: ids.slice(0, proposedRetests) },
      ...{ dueOn: addDays(day, daysToDo), reason: '' },
    },
    toBody: (values) => values,
    send: (body) => order.mutateAsync({ params: { id }, body }),
  });
  const { form } = of;
  const values = form.getValues();
  const toggle = (list: 'reviews' | 'retests', house: string) =>
    form.setFieldValue(
      list,
      values[list].includes(house) ? values[list].filter((each) => each !== house) : [...values[list], house],
    );
  return (
    <FormBody of={of} action="Order" onCancel={onCancel}>
      <div className="fields">
        <TextInput type="date" label="Due on" {...form.getInputProps('dueOn')} />
      </div>
      <RowsTable
        caption="Houses behind the finding"
        rows={behind}
        keyOf={(house) => house.id}
        columns={[
          { title: 'House', head: true, cell: (house) => `${house.address}, lot ${house.lot}` },
          {
            title: 'Review the file',
            cell: (house) => (
              <Checkbox
                aria-label={`Review the file of ${house.address}`}
                checked={values.reviews.includes(house.id)}
                onChange={() => toggle('reviews', house.id)}
              />
            ),
          },
          {
            title: 'Measure again',
            cell: (house) => (
              <Checkbox
                aria-label={`Measure ${house.address} again`}
                checked={values.retests.includes(house.id)}
                onChange={() => toggle('retests', house.id)}
              />
            ),
          },
        ]}
      />
      {form.errors['reviews'] && (
        <p className="small" role="alert">
          {form.errors['reviews']}
        </p>
      )}
      <Textarea label="What for" autosize required {...form.getInputProps('reason')} />
    </FormBody>
  );
}

/** What the quality manager makes of a finding: look again, act, or lay it aside. */
export function Decision({ finding }: { finding: SignalFinding }) {
  const mayDecide = useRole('quality');
  if (finding.state === 'dismissed') return null;
  if (!mayDecide) return <p className="soft">The quality manager decides about it.</p>;
  return (
    <Group gap="xs">
      <DialogButton label="Order reviews or re-tests" wide>
        {(close) => (
          <OrderForm
            finding={finding}
            onCancel={close}
            onDone={() => {
              close();
              said('Ordered');
            }}
          />
        )}
      </DialogButton>
      <ButtonLink to="/corrective-actions" search={{ about: finding.rater.id }} variant="default">
        Open a corrective action
      </ButtonLink>
      {finding.state === 'open' && (
        <DialogButton label="Lay it aside" title="Lay the finding aside" variant="default">
          {(close) => <DismissForm finding={finding} onCancel={close} onDone={close} />}
        </DialogButton>
      )}
    </Group>
  );
}
