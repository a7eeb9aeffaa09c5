import { TextInput } from '@mantine/core';
import { builders, replay, service, type Replay } from '@countercheck/contracts';
import { BuilderChoice } from '../../components/choosers/index.ts';
import { FormBody } from '../../components/feedback/index.ts';
import { Choice, optionsOf } from '../../components/fields/index.ts';
import { stageWords } from '../../components/marks/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';

interface ReplayFormProps {
  onDone: (asked: Replay) => void;
  onCancel: () => void;
}

const noFilter = {
  ...{ from: null, to: null, builderId: null, communityId: null, stage: null, ruleSetId: null },
} as Record<'from' | 'to' | 'builderId' | 'communityId' | 'stage' | 'ruleSetId', string | null>;

/** Which rules over which houses. */
export function ReplayForm({ onDone, onCancel }: ReplayFormProps) {
  const sets = useRoute(service.ruleSets, {});
  const ask = useAction(replay.ask, { invalidates: [replay.list], onDone });
  const of = useContractForm({
    schema: replay.ask.body,
    initialValues: { ruleSetId: null as string | null, filter: noFilter, note: '' },
    // An emptied date is no date.
    toBody: (values) => ({
      ...values,
      filter: { ...values.filter, from: values.filter.from || null, to: values.filter.to || null },
    }),
    send: (body) => ask.mutateAsync({ body: body as BodyOf<typeof replay.ask> }),
  });
  const { form } = of;
  const field = form.getInputProps;
  const text = (path: string) => {
    const { value, ...rest } = field(path) as { value: string | null };
    return { value: value ?? '', ...rest };
  };
  const { builderId } = form.getValues().filter;
  const builder = useRoute(
    builders.show,
    { params: { id: builderId ?? '' } },
    { enabled: builderId !== null },
  );
  const options = (sets.data ?? []).map(({ id, title, version }) => ({
    value: id,
    label: `${title} ${version}`,
  }));
  const communities = builderId === null ? [] : (builder.data?.communityList ?? []);
  return (
    <FormBody of={of} action="Start" onCancel={onCancel}>
      <Choice label="Rule set to apply" none="Choose a rule set" options={options} {...field('ruleSetId')} />
      <fieldset className="fields">
        <legend>Only houses</legend>
        <TextInput type="date" label="Last visited from" {...text('filter.from')} />
        <TextInput type="date" label="Last visited to" {...text('filter.to')} />
        <BuilderChoice
          {...(field('filter.builderId') as { error?: string })}
          value={builderId}
          onChange={(value) => {
            form.setFieldValue('filter.builderId', value);
            form.setFieldValue('filter.communityId', null);
          }}
        />
        <Choice
          label="Community"
          none="Every community"
          disabled={builderId === null}
          options={communities.map(({ id, name }) => ({ value: id, label: name }))}
          {...field('filter.communityId')}
        />
        <Choice label="Stage" none="Any stage" options={optionsOf(stageWords)} {...field('filter.stage')} />
        <Choice
          label="Judged today by"
          none="Any rule set"
          options={options}
          {...field('filter.ruleSetId')}
        />
      </fieldset>
      <TextInput label="Note" description="What it is asked for; may be left out." {...field('note')} />
    </FormBody>
  );
}
