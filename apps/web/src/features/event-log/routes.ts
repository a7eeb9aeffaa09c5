import type { PageRoute } from '../../lib/page-route.ts';

export const eventLogRoutes: PageRoute[] = [
  {
    path: '/event-log',
    title: 'Chained log',
    roles: ['quality', 'administrator'],
    load: () => import('./log-page.tsx'),
  },
  {
    path: '/releases/$id/proof',
    title: 'Proof of a released file',
    roles: ['builder', 'office', 'quality', 'administrator'],
    load: () => import('./proof-page.tsx'),
  },
];
