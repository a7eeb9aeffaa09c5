import type { PageRoute } from '../../lib/page-route.ts';

export const overviewRoutes: PageRoute[] = [
  { path: '/', title: 'Overview', load: () => import('./overview-page.tsx') },
];
