import { session } from '@countercheck/contracts';
import { useState } from 'react';
import { PlainField, PlainForm, usePlainForm } from '../../components/sign-in/index.ts';
import { call } from '../../lib/client.ts';
import { EntranceFrame } from './entrance-frame.tsx';

export function ForgotPage() {
  const [sentTo, setSentTo] = useState<string | null>(null);
  const form = usePlainForm(session.askReset.body, { email: '' }, async (values) => {
    await call(session.askReset, { body: values });
    setSentTo(values.email);
  });
  const back = <a href="/sign-in">Back to signing in</a>;
  if (sentTo) {
    return (
      <EntranceFrame title="Look into your mail" foot={back}>
        {/* The same words whether or not there is such an account, so that nobody can find out who has one. */}
        <p role="status">
          If {sentTo} belongs to an account, a link to set a new password is on its way there.
        </p>
      </EntranceFrame>
    );
  }
  return (
    <EntranceFrame title="New password" lead="We send you a link to set a new one." foot={back}>
      <PlainForm of={form} action="Send the link">
        <PlainField {...form.field('email')} label="Email" type="email" autoComplete="username" autoFocus />
      </PlainForm>
    </EntranceFrame>
  );
}
