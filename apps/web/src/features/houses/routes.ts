import { staff } from '@countercheck/contracts';
import type { PageRoute } from '../../lib/page-route.ts';

const keepers = ['office', 'administrator'] as const;

export const houseRoutes: PageRoute[] = [
  { path: '/houses', title: 'Houses', roles: staff, load: () => import('./list/houses-page.tsx') },
  {
    path: '/houses/new',
    title: 'New house',
    roles: keepers,
    load: () => import('./form/new-house-page.tsx'),
  },
  {
    path: '/houses/import',
    title: 'Load houses',
    roles: keepers,
    load: () => import('./import/import-page.tsx'),
  },
  { path: '/houses/$id', title: 'House', roles: staff, load: () => import('./detail/house-page.tsx') },
  {
    path: '/houses/$id/edit',
    title: 'Change a house',
    roles: keepers,
    load: () => import('./form/edit-house-page.tsx'),
  },
];
