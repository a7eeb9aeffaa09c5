import type { PageRoute } from '../../lib/page-route.ts';

const roles = ['quality', 'administrator'] as const;

export const samplingRoutes: PageRoute[] = [
  { path: '/obligations', title: 'Obligations', roles, load: () => import('./obligations-page.tsx') },
  { path: '/draws', title: 'Draws', roles, load: () => import('./draws-page.tsx') },
  { path: '/draws/$id', title: 'Draw', roles, load: () => import('./draw-page.tsx') },
  { path: '/sample-plans', title: 'Sample plans', roles, load: () => import('./plans-page.tsx') },
];
