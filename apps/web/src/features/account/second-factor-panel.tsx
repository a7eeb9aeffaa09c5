import { Button } from '@mantine/core';
import { useState } from 'react';
import { Caution, Tag } from '../../components/marks/index.ts';
import { Panel } from '../../components/page/index.ts';
import { useMe } from '../../lib/session.ts';
import { RemoveSecondFactor } from './remove-second-factor.tsx';
import { SetUpSecondFactor } from './set-up-second-factor.tsx';

/** The authenticator: whether there is one, setting one up, removing it. */
export function SecondFactorPanel() {
  const { active, required } = useMe().secondFactor;
  const [open, setOpen] = useState(false);
  const close = () => setOpen(false);
  return (
    <Panel
      title="Second factor"
      actions={<Tag tone={active ? 'good' : 'plain'}>{active ? 'Set up' : 'Not set up'}</Tag>}
    >
      <div className="stack">
        {required && !active && (
          <Caution title="Your company requires a second factor">
            <p>Set up an authenticator before you go on with other pages.</p>
          </Caution>
        )}
        <p className="soft">
          An authenticator app on your phone shows a six-digit code that is asked for after the password.
        </p>
        {!open && (
          <div>
            <Button variant={active ? 'default' : 'filled'} onClick={() => setOpen(true)}>
              {active ? 'Remove the authenticator' : 'Set up an authenticator'}
            </Button>
          </div>
        )}
        {open && !active && <SetUpSecondFactor onDone={close} />}
        {open && active && <RemoveSecondFactor onDone={close} />}
      </div>
    </Panel>
  );
}
