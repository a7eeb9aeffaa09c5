import type { PageRoute } from '../../lib/page-route.ts';

export const figuresRoutes: PageRoute[] = [
  {
    path: '/figures/$token',
    title: 'Figures of a house',
    entry: 'link',
    load: () => import('./figures-page.tsx'),
  },
];
