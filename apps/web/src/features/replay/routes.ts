import type { PageRoute } from '../../lib/page-route.ts';

const roles = ['quality', 'administrator'] as const;

export const replayRoutes: PageRoute[] = [
  { path: '/replays', title: 'Replays', roles, load: () => import('./replays-page.tsx') },
  { path: '/replays/$id', title: 'Replay', roles, load: () => import('./replay-page.tsx') },
];
