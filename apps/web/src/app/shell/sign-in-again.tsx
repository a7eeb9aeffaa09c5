import { Modal } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { CodeForm, PasswordForm } from '../../components/sign-in/index.ts';
import { useMe } from '../../lib/session.ts';
import { announceSignedIn, onExpiry } from '../../lib/session-expiry.ts';

/** Comes up over the page when the session has ended, so that what was entered there is not lost. */
export function SignInAgain() {
  const me = useMe();
  const client = useQueryClient();
  const [step, setStep] = useState<'none' | 'password' | 'code'>('none');
  useEffect(() => onExpiry(() => setStep((now) => (now === 'none' ? 'password' : now))), []);

  function done() {
    setStep('none');
    void client.invalidateQueries();
    announceSignedIn();
  }
  return (
    <Modal
      opened={step !== 'none'}
      onClose={() => setStep('none')}
      title="Sign in again to go on"
      closeOnClickOutside={false}
      // Over any dialog that was open when the session ended.
      zIndex={500}
      closeButtonProps={{ 'aria-label': 'Close' }}
    >
      <div className="stack">
        <p>The session has ended. What you entered is still on the page; send it again afterwards.</p>
        {step === 'code' ? (
          <CodeForm onSignedIn={done} />
        ) : (
          <PasswordForm email={me.email} onSignedIn={done} onCodeNeeded={() => setStep('code')} />
        )}
      </div>
    </Modal>
  );
}
