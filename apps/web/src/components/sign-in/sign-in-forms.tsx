import { session } from '@countercheck/contracts';
import { call } from '../../lib/client.ts';
import { PlainField } from './plain-field.tsx';
import { PlainForm } from './plain-form.tsx';
import { usePlainForm } from './use-plain-form.ts';

interface PasswordFormProps {
  email?: string;
  onSignedIn: () => void;
  onCodeNeeded: () => void;
}

/** The first step: email and password. */
export function PasswordForm({ email = '', onSignedIn, onCodeNeeded }: PasswordFormProps) {
  const form = usePlainForm(session.signIn.body, { email, password: '' }, async (values) => {
    const { next } = await call(session.signIn, { body: values });
    if (next === 'second-factor') onCodeNeeded();
    else onSignedIn();
  });
  return (
    <PlainForm of={form} action="Sign in">
      <PlainField
        {...form.field('email')}
        label="Email"
        type="email"
        autoComplete="username"
        autoFocus={!email}
      />
      <PlainField
        {...form.field('password')}
        label="Password"
        type="password"
        autoComplete="current-password"
        autoFocus={Boolean(email)}
      />
    </PlainForm>
  );
}

/** The second step, for who has set up an authenticator. */
export function CodeForm({ onSignedIn }: { onSignedIn: () => void }) {
  const form = usePlainForm(session.secondFactor.body, { code: '' }, async (values) => {
    await call(session.secondFactor, { body: values });
    onSignedIn();
  });
  return (
    <PlainForm of={form} action="Go on">
      <PlainField
        {...form.field('code')}
        label="Code from your authenticator"
        hint="Six digits; a new one comes every 30 seconds."
        inputMode="numeric"
        autoComplete="one-time-code"
        maxLength={7}
        autoFocus
      />
    </PlainForm>
  );
}
