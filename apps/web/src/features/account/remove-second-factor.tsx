import { PasswordInput, TextInput } from '@mantine/core';
import { session } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';

export function RemoveSecondFactor({ onDone }: { onDone: () => void }) {
  const remove = useAction(session.removeSecondFactor, { invalidates: [session.me] });
  const of = useContractForm({
    schema: session.removeSecondFactor.body,
    initialValues: { password: '', code: '' },
    send: async (body) => {
      await remove.mutateAsync({ body });
      said('Authenticator removed');
      onDone();
    },
  });
  return (
    <FormBody of={of} action="Remove it" onCancel={onDone}>
      <div className="fields">
        <PasswordInput
          label="Password"
          autoComplete="current-password"
          {...of.form.getInputProps('password')}
        />
        <TextInput
          label="Code from the authenticator"
          inputMode="numeric"
          autoComplete="one-time-code"
          {...of.form.getInputProps('code')}
        />
      </div>
    </FormBody>
  );
}
