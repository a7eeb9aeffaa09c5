import { staff } from '@countercheck/contracts';
import type { PageRoute } from '../../lib/page-route.ts';

export const instrumentRoutes: PageRoute[] = [
  { path: '/instruments', title: 'Instruments', roles: staff, load: () => import('./instruments-page.tsx') },
  {
    path: '/instruments/$id',
    title: 'Instrument',
    roles: staff,
    load: () => import('./instrument-page.tsx'),
  },
];
