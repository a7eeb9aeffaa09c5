import type { PageRoute } from '../../lib/page-route.ts';

const roles = ['office', 'administrator'] as const;

export const planningRoutes: PageRoute[] = [
  { path: '/plans', title: 'Plans', roles, load: () => import('./plans-page.tsx') },
  { path: '/plans/$id', title: 'Plan', roles, load: () => import('./plan-page.tsx') },
];
