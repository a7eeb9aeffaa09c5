import { ActionIcon, Menu } from '@mantine/core';
import { IconDots } from '@tabler/icons-react';
import { administration, type User } from '@countercheck/contracts';
import { useState } from 'react';
import { Confirm, said } from '../../../components/feedback/index.ts';
import { useAction } from '../../../lib/query.ts';

interface Asked {
  title: string;
  action: string;
  words: string;
  done: string;
  run: () => Promise<unknown>;
}

/** What the administrator can do for one user. */
export function UserActions({ user, onChange }: { user: User; onChange: () => void }) {
  const invalidates = [administration.users];
  const again = useAction(administration.inviteAgain, { invalidates });
  const end = useAction(administration.endSessions, { invalidates });
  const reset = useAction(administration.resetSecondFactor, { invalidates });
  const [asked, setAsked] = useState<Asked | null>(null);
  const args = { params: { id: user.id } };
  return (
    <>
      <Menu position="bottom-end">
        <Menu.Target>
          <ActionIcon variant="subtle" size="lg" aria-label={`Actions for ${user.name}`}>
            <IconDots size={18} />
          </ActionIcon>
        </Menu.Target>
        <Menu.Dropdown>
          <Menu.Item onClick={onChange}>Change</Menu.Item>
          <Menu.Item
            onClick={() =>
              setAsked({
                title: user.invited ? 'Send the invitation again?' : 'Send a link for a new password?',
                action: 'Send it',
                words: `It goes to ${user.email}; an earlier link stops working.`,
                done: 'Mail written',
                run: () => again.mutateAsync(args),
              })
            }
          >
            {user.invited ? 'Send the invitation again' : 'Send a link for a new password'}
          </Menu.Item>
          <Menu.Item
            disabled={user.openSessions === 0}
            onClick={() =>
              setAsked({
                title: `Sign ${user.name} out everywhere?`,
                action: 'End the sessions',
                words: 'For a phone that was lost. What was not sent from it yet stays on it.',
                done: 'Sessions ended',
                run: () => end.mutateAsync(args),
              })
            }
          >
            Sign out everywhere
          </Menu.Item>
          <Menu.Item
            disabled={!user.secondFactor}
            onClick={() =>
              setAsked({
                title: `Remove the authenticator of ${user.name}?`,
                action: 'Remove it',
                words: 'Make sure it is really this person who asks for it.',
                done: 'Authenticator removed',
                run: () => reset.mutateAsync(args),
              })
            }
          >
            Remove a lost authenticator
          </Menu.Item>
        </Menu.Dropdown>
      </Menu>
      <Confirm
        title={asked?.title ?? ''}
        opened={asked !== null}
        onClose={() => setAsked(null)}
        action={asked?.action ?? ''}
        onConfirm={async () => {
          await asked?.run();
          if (asked) said(asked.done);
        }}
      >
        <p>{asked?.words}</p>
      </Confirm>
    </>
  );
}
