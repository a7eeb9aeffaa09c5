import { PasswordInput } from '@mantine/core';
import { session } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import { Panel } from '../../components/page/index.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';

export function PasswordPanel() {
  const change = useAction(session.changePassword);
  const of = useContractForm({
    schema: session.changePassword.body,
    initialValues: { current: '', next: '' },
    send: async (body) => {
      await change.mutateAsync({ body });
      of.form.reset();
      said('Password changed; other devices are signed out');
    },
  });
  return (
    <Panel title="Password">
      <FormBody of={of} action="Change the password">
        <div className="fields">
          <PasswordInput
            label="Present password"
            autoComplete="current-password"
            {...of.form.getInputProps('current')}
          />
          <PasswordInput
            label="New password"
            description="At least 12 characters"
            inputWrapperOrder={['label', 'input', 'description', 'error']}
            autoComplete="new-password"
            {...of.form.getInputProps('next')}
          />
        </div>
      </FormBody>
    </Panel>
  );
}
