import { Checkbox, NumberInput, TextInput } from '@mantine/core';
import { planning, scheduling, visits, type WeekPlan } from '@countercheck/contracts';
import { useState } from 'react';
import { FormBody } from '../../components/feedback/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { addDays, today, weekStart } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { visitKindWords } from '../../lib/words/work.ts';

interface PlanFormProps {
  onDone: (asked: WeekPlan) => void;
  onCancel: () => void;
}

/** Which days, whose, and which requests; or what is booked already, planned again from now on. */
export function PlanForm(props: PlanFormProps) {
  const raters = useRoute(visits.raters, {});
  return (
    <Asked query={raters}>
      {(people) =>
        people.length === 0 ? (
          <Empty title="Nobody works as a rater yet">The administrator adds raters under Users.</Empty>
        ) : (
          <Fields {...props} people={people} />
        )
      }
    </Asked>
  );
}

function Fields({ onDone, onCancel, people }: PlanFormProps & { people: { id: string; name: string }[] }) {
  const now = today(useMe().company.timezone);
  const next = addDays(weekStart(now), 7);
  const requests = useRoute(scheduling.requests, { query: { state: 'open', pageSize: 100 } });
  const [some, setSome] = useState(false);
  const ask = useAction(planning.ask, { invalidates: [planning.list], onDone });
  const of = useContractForm({
    schema: planning.ask.body,
    initialValues: {
      ...{ from: next, to: addDays(next, 4), replan: false, seconds: 8, note: '' },
      raterIds: people.map(({ id }) => id),
      awayRaterIds: [] as string[],
      requestIds: [] as string[],
    },
    toBody: (values) => ({
      ...values,
      requestIds: some ? values.requestIds : null,
      awayRaterIds: values.replan ? values.awayRaterIds : [],
      raterIds: values.replan
        ? values.raterIds.filter((id) => !values.awayRaterIds.includes(id))
        : values.raterIds,
    }),
    send: (body) => ask.mutateAsync({ body: body as BodyOf<typeof planning.ask> }),
  });
  const { form } = of;
  const field = form.getInputProps;
  const values = form.getValues();
  const choose = (replan: boolean) =>
    form.setValues(replan ? { replan, from: now, to: now } : { replan, from: next, to: addDays(next, 4) });
  return (
    <FormBody of={of} action="Plan" onCancel={onCancel}>
      <Checkbox
        label="Plan again what is booked from now on"
        description="For a change in the middle of the day. What has begun stays; as little as possible moves."
        checked={values.replan}
        onChange={(event) => choose(event.currentTarget.checked)}
      />
      <TextInput type="date" label="First day" {...field('from')} />
      <TextInput type="date" label="Last day" {...field('to')} />
      <Checkbox.Group label="Raters" {...field('raterIds')}>
        <div className="stack">
          {people.map(({ id, name }) => (
            <Checkbox key={id} value={id} label={name} />
          ))}
        </div>
      </Checkbox.Group>
      {values.replan && (
        <Checkbox.Group
          label="Away from now on"
          description="What they have booked is given to the others."
          {...field('awayRaterIds')}
        >
          <div className="stack">
            {people.map(({ id, name }) => (
              <Checkbox key={id} value={id} label={`${name} is away`} />
            ))}
          </div>
        </Checkbox.Group>
      )}
      <Checkbox
        label="Choose among the open requests"
        description="Otherwise all that are open by then are planned."
        checked={some}
        onChange={(event) => setSome(event.currentTarget.checked)}
      />
      {some && (
        <Asked query={requests}>
          {({ items, total }) => (
            <Checkbox.Group
              label="Requests"
              description={
                total > items.length ? `The ${items.length} of ${total} that are due first.` : undefined
              }
              {...field('requestIds')}
            >
              <div className="stack">
                {items.map(({ id, house, kind }) => (
                  <Checkbox key={id} value={id} label={`${house.address}, ${visitKindWords[kind]}`} />
                ))}
              </div>
            </Checkbox.Group>
          )}
        </Asked>
      )}
      <NumberInput label="Seconds to search" min={1} max={60} {...field('seconds')} />
      <TextInput label="Note" description="May be left out." {...field('note')} />
    </FormBody>
  );
}
