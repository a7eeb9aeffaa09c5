import { TextInput } from '@mantine/core';
import { batches, builders, type Batch } from '@countercheck/contracts';
import { useState } from 'react';
import { BuilderChoice } from '../../components/choosers/index.ts';
import { FormBody } from '../../components/feedback/index.ts';
import { Choice } from '../../components/fields/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';

interface OpenFormProps {
  onDone: (batch: Batch) => void;
  onCancel: () => void;
}

const none = {
  ...{ title: '', trades: '', communityId: null as string | null, planId: null as string | null },
  rulesKey: 'twenty-percent' as string | null,
};

export function OpenForm({ onDone, onCancel }: OpenFormProps) {
  const [builderId, setBuilderId] = useState<string | null>(null);
  const rules = useRoute(batches.rules, {});
  const builder = useRoute(
    builders.show,
    { params: { id: builderId ?? '' } },
    { enabled: builderId !== null },
  );
  const open = useAction(batches.open, { invalidates: [batches.list], onDone });
  const of = useContractForm({
    schema: batches.open.body,
    initialValues: none,
    send: (body) => open.mutateAsync({ body: body as BodyOf<typeof batches.open> }),
  });
  const { form } = of;
  const field = form.getInputProps;
  const named = (list: readonly { id: string; name: string }[] = []) =>
    list.map(({ id, name }) => ({ value: id, label: name }));
  return (
    <FormBody of={of} action="Open the batch" onCancel={onCancel}>
      <TextInput label="Title" {...field('title')} />
      <div className="fields">
        <BuilderChoice
          value={builderId}
          onChange={(value) => {
            setBuilderId(value);
            form.setFieldValue('communityId', null);
            form.setFieldValue('planId', null);
          }}
        />
        <Choice
          label="Community"
          none="Choose a community"
          disabled={builderId === null}
          options={named(builderId === null ? [] : builder.data?.communityList)}
          {...field('communityId')}
        />
        <Choice
          label="Plan"
          none="Any plan"
          disabled={builderId === null}
          options={named(builderId === null ? [] : builder.data?.planList)}
          {...field('planId')}
        />
        <Choice
          label="Rules"
          options={(rules.data ?? []).map(({ key, title }) => ({ value: key, label: title }))}
          {...field('rulesKey')}
        />
      </div>
      <TextInput
        label="Same trades in all of them"
        description="Who did the work, for example the installer and the crew. Other trades need another batch."
        {...field('trades')}
      />
    </FormBody>
  );
}
