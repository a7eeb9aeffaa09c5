import type { PageRoute } from '../../lib/page-route.ts';

const roles = ['quality', 'administrator'] as const;

export const fileReviewRoutes: PageRoute[] = [
  { path: '/file-reviews', title: 'File reviews', roles, load: () => import('./reviews-page.tsx') },
  { path: '/file-reviews/$id', title: 'File review', roles, load: () => import('./page/review-page.tsx') },
  {
    path: '/file-findings',
    title: 'Findings',
    roles: ['rater', 'office', ...roles],
    load: () => import('./findings-page.tsx'),
  },
];
