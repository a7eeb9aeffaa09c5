import type { PageRoute } from '../../lib/page-route.ts';

export const reviewRoutes: PageRoute[] = [
  {
    path: '/review',
    title: 'Review',
    roles: ['quality', 'administrator'],
    load: () => import('./queue-page.tsx'),
  },
  {
    path: '/review/$id',
    title: 'File of a house',
    roles: ['quality', 'administrator', 'office'],
    load: () => import('./file-page.tsx'),
  },
  {
    path: '/releases/$id',
    title: 'Sealed file',
    roles: ['quality', 'administrator', 'office'],
    load: () => import('./sealed-page.tsx'),
  },
];
