import type { PageRoute } from '../../lib/page-route.ts';

const roles = ['quality', 'administrator'] as const;

export const batchRoutes: PageRoute[] = [
  { path: '/batches', title: 'Batches', roles, load: () => import('./batches-page.tsx') },
  { path: '/batches/$id', title: 'Batch', roles, load: () => import('./batch-page.tsx') },
];
