import { useSyncExternalStore } from 'react';
import { AccessPage } from './access-page.tsx';
import { ForgotPage } from './forgot-page.tsx';
import { CodePage, SignInPage } from './sign-in-pages.tsx';

const subscribe = (listener: () => void) => {
  window.addEventListener('popstate', listener);
  return () => window.removeEventListener('popstate', listener);
};

/** The pages in front of the session. So few that they need no router, and load without the shell. */
export function Entrance() {
  const path = useSyncExternalStore(subscribe, () => window.location.pathname);
  if (path.startsWith('/access/'))
    return <AccessPage token={decodeURIComponent(path.slice('/access/'.length))} />;
  if (path === '/forgot') return <ForgotPage />;
  if (path === '/sign-in/code') return <CodePage />;
  return <SignInPage />;
}
