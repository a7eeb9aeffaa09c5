import { staff } from '@countercheck/contracts';
import type { PageRoute } from '../../lib/page-route.ts';

export const calculatorRoutes: PageRoute[] = [
  { path: '/calculator', title: 'Calculator', roles: staff, load: () => import('./calculator-page.tsx') },
];
