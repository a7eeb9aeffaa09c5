import { session } from '@countercheck/contracts';
import { useEffect, useState } from 'react';
import { PlainField, PlainForm, usePlainForm } from '../../components/sign-in/index.ts';
import { type AnswerOf, call } from '../../lib/client.ts';
import { inWords } from '../../lib/problem.ts';
import { EntranceFrame } from './entrance-frame.tsx';

type AccessLink = AnswerOf<typeof session.accessLink>;

/** Sets a password through the link of an invitation or of a reset. */
export function AccessPage({ token }: { token: string }) {
  const [link, setLink] = useState<AccessLink | null>(null);
  const [error, setError] = useState<unknown>(null);
  useEffect(() => {
    call(session.accessLink, { params: { token } }).then(setLink, setError);
  }, [token]);

  const back = <a href="/sign-in">Sign in</a>;
  if (error) {
    const words = inWords(error);
    return (
      <EntranceFrame title={words.title} lead={words.detail} foot={back}>
        <p>{words.remedy}</p>
      </EntranceFrame>
    );
  }
  if (!link) return <EntranceFrame title="One moment…">{null}</EntranceFrame>;
  return <NewPassword token={token} link={link} />;
}

function NewPassword({ token, link }: { token: string; link: AccessLink }) {
  const [done, setDone] = useState(false);
  const form = usePlainForm(session.useAccessLink.body, { password: '' }, async (values) => {
    await call(session.useAccessLink, { params: { token }, body: values });
    setDone(true);
  });
  if (done) {
    return (
      <EntranceFrame title="Password set" foot={<a href="/sign-in">Sign in</a>}>
        <p role="status">You can sign in as {link.email} now.</p>
      </EntranceFrame>
    );
  }
  return (
    <EntranceFrame
      title={link.purpose === 'invitation' ? `Welcome, ${link.name}` : 'Set a new password'}
      lead={`For ${link.email}`}
    >
      <PlainForm of={form} action="Set the password">
        <input type="hidden" name="username" autoComplete="username" value={link.email} readOnly />
        <PlainField
          {...form.field('password')}
          label="Password"
          hint="At least 12 characters; a few unrelated words are easy to keep."
          type="password"
          autoComplete="new-password"
          autoFocus
        />
      </PlainForm>
    </EntranceFrame>
  );
}
