import { session, type Me, type Role } from '@countercheck/contracts';
import { queryOptions, useQuery } from '@tanstack/react-query';
import { createContext, use } from 'react';
import { call } from './client.ts';
import { ApiProblem } from './problem.ts';
import { keyOf } from './query.ts';
import { announceExpiry } from './session-expiry.ts';

const meKey = keyOf(session.me);

export const sessionQuery = queryOptions<Me>({
  queryKey: meKey,
  queryFn: ({ signal }) => meOrKept(signal),
  staleTime: 60_000,
  // Where there is no network, whoever was signed in last is still known.
  networkMode: 'always',
});

/** Who is signed in, or undefined while that is not known (or nobody is). */
export const useSession = () => useQuery(sessionQuery);

/** How long a network that takes what is sent and answers nothing is waited for, ms. */
const patience = 600;

async function onPhone(): Promise<Me | null> {
  const { keptMe } = await import('./phone/kept-me.ts');
  return keptMe().catch(noStore);
}

/** The answer came after all: another person than the one last here is not shown under that one's name. */
async function whenKnown(real: Me, shown: Me): Promise<void> {
  const { keepMe, dropMe } = await import('./phone/kept-me.ts');
  await (real.role === 'rater' ? keepMe(real) : dropMe());
  if (real.id !== shown.id) window.location.reload();
}
const noticeExpiry = (error: unknown) => {
  if (error instanceof ApiProblem && error.details.status === 401) announceExpiry();
};

/** A rater's phone opens without a network as it was left; what it sends waits for the session to be proven. */
async function meOrKept(signal: AbortSignal): Promise<Me> {
  const asked = call(session.me, {}, { signal });
  const late = new Promise<'late'>((resolve) => setTimeout(() => resolve('late'), patience));
  if ((await Promise.race([asked.catch(noStore), late])) === 'late') {
    const me = await onPhone();
    if (me) {
      void asked.then((real) => whenKnown(real, me)).catch(noticeExpiry);
      return me;
    }
  }
  try {
    const me = await asked;
    if (me.role === 'rater')
      void import('./phone/kept-me.ts').then(({ keepMe }) => keepMe(me)).catch(noStore);
    return me;
  } catch (error) {
    if (error instanceof ApiProblem && error.details.status < 500) throw error;
    const me = await onPhone();
    if (!me) throw error;
    return me;
  }
}
// A private window may have no store; the pages work with a network all the same.
const noStore = () => null;

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
