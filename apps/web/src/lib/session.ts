import { session, type Me, type Role } from '@countercheck/contracts';
import { useQuery } from '@tanstack/react-query';
import { createContext, use } from 'react';
import { call } from './client.ts';
import { keyOf } from './query.ts';

const meKey = keyOf(session.me);

/** Who is signed in, or undefined while that is not known (or nobody is). */
export function useSession() {
  return useQuery<Me>({
    queryKey: meKey,
    queryFn: ({ signal }) => call(session.me, {}, signal),
    staleTime: 60_000,
  });
}

export const MeContext = createContext<Me | null>(null);

/** The person signed in. Only for pages inside the shell, which shows nothing before it knows. */
export function useMe(): Me {
  const me = use(MeContext);
  if (!me) throw new Error('useMe is for pages that need a session');
  return me;
}

export function useRole(...roles: Role[]): boolean {
  return roles.includes(useMe().role);
}
