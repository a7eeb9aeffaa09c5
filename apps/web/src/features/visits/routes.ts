import type { PageRoute } from '../../lib/page-route.ts';

const readers = ['office', 'administrator', 'quality'] as const;

export const visitRoutes: PageRoute[] = [
  { path: '/visits', title: 'Visits', roles: readers, load: () => import('./visits-page.tsx') },
  {
    path: '/reinspections',
    title: 'Reinspections',
    roles: readers,
    load: () => import('./reinspections-page.tsx'),
  },
];
