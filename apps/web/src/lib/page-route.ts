import type { Role } from '@countercheck/contracts';
import { useParams } from '@tanstack/react-router';
import type { FunctionComponent } from 'react';

/** One page of a feature: where it lives, who may open it, and how to load it. */
export interface PageRoute {
  path: string;
  /** for the browser's tab until the page knows better */
  title: string;
  load: () => Promise<{ default: FunctionComponent }>;
  /** roles that may open it; left out = every role. */
  roles?: readonly Role[];
  /** `link` pages are opened by a personal link, without a session and without the navigation */
  entry?: 'session' | 'link';
}

/** A part of the address, e.g. `useParam('id')` under `/houses/$id`. */
export function useParam(name: string): string {
  const params: Record<string, string | undefined> = useParams({ strict: false });
  return params[name] ?? '';
}
