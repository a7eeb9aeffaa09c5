import { PasswordInput, TextInput } from '@mantine/core';
import { session } from '@countercheck/contracts';
import { useState } from 'react';
import { FormBody, said } from '../../components/feedback/index.ts';
import { CopyText } from '../../components/fields/index.ts';
import type { AnswerOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';

type Begun = AnswerOf<typeof session.beginSecondFactor>;

export function SetUpSecondFactor({ onDone }: { onDone: () => void }) {
  const [begun, setBegun] = useState<Begun | null>(null);
  return begun ? (
    <Confirmation begun={begun} onDone={onDone} />
  ) : (
    <Beginning onBegun={setBegun} onCancel={onDone} />
  );
}

function Beginning({ onBegun, onCancel }: { onBegun: (begun: Begun) => void; onCancel: () => void }) {
  const begin = useAction(session.beginSecondFactor);
  const of = useContractForm({
    schema: session.beginSecondFactor.body,
    initialValues: { password: '' },
    send: async (body) => onBegun(await begin.mutateAsync({ body })),
  });
  return (
    <FormBody of={of} action="Go on" onCancel={onCancel}>
      <PasswordInput
        label="Your password, to be sure it is you"
        autoComplete="current-password"
        {...of.form.getInputProps('password')}
      />
    </FormBody>
  );
}

function Confirmation({ begun, onDone }: { begun: Begun; onDone: () => void }) {
  const confirm = useAction(session.confirmSecondFactor, { invalidates: [session.me] });
  const of = useContractForm({
    schema: session.confirmSecondFactor.body,
    initialValues: { code: '' },
    send: async (body) => {
      await confirm.mutateAsync({ body });
      said('Authenticator set up');
      onDone();
    },
  });
  return (
    <div className="stack">
      <p>Scan this with the authenticator app, or type the key into it.</p>
      <img
        className="qr"
        alt="QR code with the key for the authenticator"
        src={`data:image/svg+xml,${encodeURIComponent(begun.qrSvg)}`}
        width={220}
        height={220}
      />
      <CopyText label="Key" text={begun.secret} />
      <FormBody of={of} action="Confirm" onCancel={onDone}>
        <TextInput
          label="Code the app shows now"
          inputMode="numeric"
          autoComplete="one-time-code"
          {...of.form.getInputProps('code')}
        />
      </FormBody>
    </div>
  );
}
