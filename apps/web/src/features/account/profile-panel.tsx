import { TextInput } from '@mantine/core';
import { session } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import { Choice } from '../../components/fields/index.ts';
import { Panel } from '../../components/page/index.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';

const systems = [
  { value: 'us', label: 'cfm, ft², in. w.c.' },
  { value: 'si', label: 'L/s, m², Pa' },
];

export function ProfilePanel() {
  const me = useMe();
  const change = useAction(session.changeMe, { invalidates: [session.me], onDone: () => said('Saved') });
  const of = useContractForm({
    schema: session.changeMe.body,
    initialValues: { name: me.name, unitSystem: me.unitSystem },
    send: (body) => change.mutateAsync({ body }),
  });
  return (
    <Panel title="Name and units">
      <FormBody of={of} action="Save">
        <div className="fields">
          <TextInput label="Name" autoComplete="name" {...of.form.getInputProps('name')} />
          <Choice label="Units shown" options={systems} {...of.form.getInputProps('unitSystem')} />
        </div>
      </FormBody>
    </Panel>
  );
}
