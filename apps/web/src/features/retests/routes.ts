import type { PageRoute } from '../../lib/page-route.ts';

export const retestRoutes: PageRoute[] = [
  {
    path: '/retests',
    title: 'Re-tests',
    roles: ['office', 'quality', 'administrator'],
    load: () => import('./retests-page.tsx'),
  },
  {
    path: '/retests/$id',
    title: 'Re-test',
    roles: ['quality', 'administrator'],
    load: () => import('./retest-page.tsx'),
  },
  {
    path: '/differences',
    title: 'Differences between raters',
    roles: ['quality', 'administrator'],
    load: () => import('./differences-page.tsx'),
  },
];
