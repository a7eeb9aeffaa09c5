import {
  ActionIcon,
  Button,
  Menu,
  Modal,
  useComputedColorScheme,
  useMantineColorScheme,
} from '@mantine/core';
import { IconLogout, IconMenu2, IconMoon, IconSun, IconUser } from '@tabler/icons-react';
import { roleLabels, session } from '@countercheck/contracts';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { call } from '../../lib/client.ts';
import { useMe } from '../../lib/session.ts';
import { UnitSwitch } from './unit-switch.tsx';

/** Company, units, light or dark, and one's own account. */
export function Header({ onMenu }: { onMenu: () => void }) {
  const me = useMe();
  return (
    <header className="head">
      <ActionIcon
        className="head-menu"
        variant="transparent"
        size="xl"
        aria-label="Open menu"
        onClick={onMenu}
      >
        <IconMenu2 />
      </ActionIcon>
      <Link to="/" className="head-name">
        <img src="/mark.svg" alt="" width="28" height="28" />
        <span>
          {me.company.name}
          <small>Countercheck</small>
        </span>
      </Link>
      <div className="head-tools">
        <UnitSwitch />
        <SchemeSwitch />
        <AccountMenu />
      </div>
    </header>
  );
}

function SchemeSwitch() {
  const { setColorScheme } = useMantineColorScheme();
  const dark = useComputedColorScheme('light') === 'dark';
  return (
    <ActionIcon
      variant="transparent"
      size="lg"
      aria-label={dark ? 'Use light colours' : 'Use dark colours'}
      onClick={() => setColorScheme(dark ? 'light' : 'dark')}
    >
      {dark ? <IconSun size={20} /> : <IconMoon size={20} />}
    </ActionIcon>
  );
}

function AccountMenu() {
  const me = useMe();
  const navigate = useNavigate();
  const [unsent, setUnsent] = useState(0);
  async function signOut() {
    if (me.role === 'rater') {
      const { leavePhone } = await import('../../features/fieldwork/phone/leave.ts');
      const left = await leavePhone(me);
      if (left > 0) return setUnsent(left);
    }
    await call(session.signOut, {});
    window.location.assign('/sign-in');
  }
  return (
    <>
      <Menu position="bottom-end" width={220}>
        <Menu.Target>
          <Button variant="transparent" className="head-account" aria-label={`Account of ${me.name}`}>
            <IconUser size={20} />
            <span className="head-person">
              {me.name}
              <small>{me.builder?.name ?? roleLabels[me.role]}</small>
            </span>
          </Button>
        </Menu.Target>
        <Menu.Dropdown>
          <Menu.Item leftSection={<IconUser size={16} />} onClick={() => void navigate({ to: '/account' })}>
            My account
          </Menu.Item>
          <Menu.Item leftSection={<IconLogout size={16} />} onClick={() => void signOut()}>
            Sign out
          </Menu.Item>
        </Menu.Dropdown>
      </Menu>
      <Modal
        title="Something is not sent yet"
        opened={unsent > 0}
        onClose={() => setUnsent(0)}
        closeButtonProps={{ 'aria-label': 'Close' }}
      >
        <div className="stack">
          <p>
            {unsent === 1 ? '1 entry waits' : `${unsent} entries wait`} on this phone. Signing out clears the
            phone, so it waits until they are sent; they can also be exported or taken back one by one.
          </p>
          <Button onClick={() => void navigate({ to: '/unsent' }).then(() => setUnsent(0))}>
            Show what waits
          </Button>
        </div>
      </Modal>
    </>
  );
}
