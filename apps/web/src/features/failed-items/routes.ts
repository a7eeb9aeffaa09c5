import { staff } from '@countercheck/contracts';
import type { PageRoute } from '../../lib/page-route.ts';

export const failedItemRoutes: PageRoute[] = [
  {
    path: '/failed-items',
    title: 'Failed items',
    roles: staff,
    load: () => import('./failed-items-page.tsx'),
  },
  {
    path: '/failed-items/board',
    title: 'What fails',
    roles: ['quality', 'office', 'administrator'],
    load: () => import('./board/board-page.tsx'),
  },
];
