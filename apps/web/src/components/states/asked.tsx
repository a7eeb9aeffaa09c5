import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { Loading, Problem } from './states.tsx';

interface AskedProps<Answer> {
  query: UseQueryResult<Answer>;
  what?: string;
  children: (answer: Answer) => ReactNode;
}

/** Shows an answer once it is there, and till then that it is on its way or what went wrong. */
export function Asked<Answer>({ query, what, children }: AskedProps<Answer>) {
  if (query.data !== undefined) return children(query.data);
  if (query.isError) return <Problem error={query.error} retry={() => void query.refetch()} />;
  return <Loading {...(what ? { what } : {})} />;
}
