import type { PageRoute } from '../../lib/page-route.ts';

export const builderDeskRoutes: PageRoute[] = [
  { path: '/my-houses', title: 'My houses', roles: ['builder'], load: () => import('./houses-page.tsx') },
  { path: '/my-houses/$id', title: 'House', roles: ['builder'], load: () => import('./house-page.tsx') },
  {
    path: '/my-failed-items/$id',
    title: 'Failed item',
    roles: ['builder'],
    load: () => import('./failed-item-page.tsx'),
  },
];
