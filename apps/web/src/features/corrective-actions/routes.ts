import type { PageRoute } from '../../lib/page-route.ts';

const roles = ['quality', 'administrator'] as const;

export const correctiveActionRoutes: PageRoute[] = [
  {
    path: '/corrective-actions',
    title: 'Corrective actions',
    roles,
    load: () => import('./actions-page.tsx'),
  },
  {
    path: '/corrective-actions/$id',
    title: 'Corrective action',
    roles,
    load: () => import('./action-page.tsx'),
  },
];
