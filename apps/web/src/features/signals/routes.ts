import type { PageRoute } from '../../lib/page-route.ts';

const roles = ['quality', 'administrator'] as const;

export const signalRoutes: PageRoute[] = [
  { path: '/signals', title: 'Signals', roles, load: () => import('./signals-page.tsx') },
  { path: '/signals/$id', title: 'Signal', roles, load: () => import('./signal-page.tsx') },
  { path: '/control-charts', title: 'Control charts', roles, load: () => import('./charts-page.tsx') },
];
