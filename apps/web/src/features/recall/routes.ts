import type { PageRoute } from '../../lib/page-route.ts';

const roles = ['quality', 'administrator'] as const;

export const recallRoutes: PageRoute[] = [
  { path: '/recalls', title: 'Recalls', roles, load: () => import('./recalls-page.tsx') },
  { path: '/recalls/$id', title: 'Recall', roles, load: () => import('./recall-page.tsx') },
];
