import { Drawer } from '@mantine/core';
import { useDisclosure } from '@mantine/hooks';
import { Outlet, useLocation } from '@tanstack/react-router';
import { lazy, Suspense, useEffect } from 'react';
import { Loading, Problem } from '../../components/states/index.ts';
import { hasCode } from '../../lib/problem.ts';
import { MeContext, useSession } from '../../lib/session.ts';
import { UnitSystemContext } from '../../lib/units/unit-system.ts';
import { Header } from './header.tsx';
import { Navigation } from './navigation.tsx';
import { SignInAgain } from './sign-in-again.tsx';
import './shell.css';

const PhoneStatus = lazy(() => import('../../features/fieldwork/unsent/phone-status.tsx'));

/** What surrounds every page of somebody who is signed in. */
export function Shell() {
  const session = useSession();
  const [menuOpen, menu] = useDisclosure(false);
  const { pathname } = useLocation();
  const closeMenu = menu.close;
  useEffect(closeMenu, [pathname, closeMenu]);

  const signedOut = !session.data && hasCode(session.error, 'sign-in-required');
  useEffect(() => {
    if (!signedOut) return;
    const { pathname: path, search, hash } = window.location;
    const here = path + search + hash;
    window.location.replace(here === '/' ? '/sign-in' : `/sign-in?to=${encodeURIComponent(here)}`);
  }, [signedOut]);

  if (!session.data) {
    return (
      <main className="shell-wait">
        {session.isError && !signedOut ? (
          <Problem error={session.error} retry={() => void session.refetch()} />
        ) : (
          <Loading />
        )}
      </main>
    );
  }
  return (
    <MeContext value={session.data}>
      <UnitSystemContext value={session.data.unitSystem}>
        <a href="#content" className="skip">
          Skip to the page
        </a>
        <Header onMenu={menu.open} />
        {session.data.role === 'rater' && (
          <Suspense fallback={null}>
            <PhoneStatus />
          </Suspense>
        )}
        <div className="shell">
          <nav className="rail" aria-label="Main">
            <Navigation />
          </nav>
          {/* Keyed by address, so that a page for another record starts afresh. */}
          <main id="content" tabIndex={-1} key={pathname}>
            <Outlet />
          </main>
        </div>
        <Drawer
          opened={menuOpen}
          onClose={menu.close}
          title="Menu"
          size="18rem"
          closeButtonProps={{ 'aria-label': 'Close menu' }}
        >
          <nav aria-label="Main">
            <Navigation />
          </nav>
        </Drawer>
        <SignInAgain />
      </UnitSystemContext>
    </MeContext>
  );
}
