import type { Role } from '@countercheck/contracts';
import type { ReactNode } from 'react';
import { Page } from '../../components/page/index.ts';
import { useMe } from '../../lib/session.ts';

/** Spares a role a page that the server would refuse it anyway. */
export function Allowed({ roles, children }: { roles: readonly Role[] | undefined; children: ReactNode }) {
  const { role } = useMe();
  if (!roles || roles.includes(role)) return children;
  return (
    <Page title="Not open to your role">
      <p>Ask the administrator if this page should be.</p>
    </Page>
  );
}
