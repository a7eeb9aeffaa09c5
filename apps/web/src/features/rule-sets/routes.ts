import { staff } from '@countercheck/contracts';
import type { PageRoute } from '../../lib/page-route.ts';

export const ruleSetRoutes: PageRoute[] = [
  { path: '/rule-sets', title: 'Rule sets', roles: staff, load: () => import('./rule-sets-page.tsx') },
  { path: '/rule-sets/$id', title: 'Rule set', roles: staff, load: () => import('./rule-set-page.tsx') },
];
