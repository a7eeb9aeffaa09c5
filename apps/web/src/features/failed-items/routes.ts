import { staff } from '@countercheck/contracts';
import type { PageRoute } from '../../lib/page-route.ts';

export const failedItemRoutes: PageRoute[] = [
  {
    path: '/failed-items',
    title: 'Failed items',
    roles: staff,
    load: () => import('./failed-items-page.tsx'),
  },
];
