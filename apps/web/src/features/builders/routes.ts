import { staff } from '@countercheck/contracts';
import type { PageRoute } from '../../lib/page-route.ts';

export const builderRoutes: PageRoute[] = [
  { path: '/builders', title: 'Builders', roles: staff, load: () => import('./builders-page.tsx') },
  { path: '/builders/$id', title: 'Builder', roles: staff, load: () => import('./builder-page.tsx') },
];
