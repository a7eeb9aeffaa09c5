import { useEffect } from 'react';
import { CodeForm, PasswordForm } from '../../components/sign-in/index.ts';
import { EntranceFrame } from './entrance-frame.tsx';
import { forgetWhoWasIn } from './forget.ts';
import { goIn } from './go-in.ts';
import { goTo } from './go-to.ts';

export function SignInPage() {
  useEffect(() => void forgetWhoWasIn().catch(() => undefined), []);
  return (
    <EntranceFrame title="Sign in" foot={<a href="/forgot">Forgot the password?</a>}>
      <PasswordForm onSignedIn={goIn} onCodeNeeded={() => goTo('/sign-in/code')} />
    </EntranceFrame>
  );
}

export function CodePage() {
  return (
    <EntranceFrame
      title="One more step"
      foot={
        <>
          <a href="/sign-in">Start again</a>
          <p className="small soft">Lost the authenticator? The administrator can remove it.</p>
        </>
      }
    >
      <CodeForm onSignedIn={goIn} />
    </EntranceFrame>
  );
}
