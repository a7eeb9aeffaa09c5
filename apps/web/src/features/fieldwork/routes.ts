import { staff } from '@countercheck/contracts';
import type { PageRoute } from '../../lib/page-route.ts';

export const fieldworkRoutes: PageRoute[] = [
  { path: '/day', title: 'My day', roles: ['rater'], load: () => import('./day/day-page.tsx') },
  {
    path: '/unsent',
    title: 'Not sent yet',
    roles: ['rater'],
    load: () => import('./unsent/unsent-page.tsx'),
  },
  { path: '/visits/$id', title: 'Visit', roles: staff, load: () => import('./sheet/visit-page.tsx') },
];
