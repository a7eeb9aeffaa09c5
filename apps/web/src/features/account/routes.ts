import type { PageRoute } from '../../lib/page-route.ts';

export const accountRoutes: PageRoute[] = [
  { path: '/account', title: 'My account', load: () => import('./account-page.tsx') },
];
