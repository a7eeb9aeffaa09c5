import type { PageRoute } from '../../lib/page-route.ts';

const desk = ['office', 'administrator', 'quality'] as const;

export const schedulingRoutes: PageRoute[] = [
  { path: '/board', title: 'Week board', roles: desk, load: () => import('./board/board-page.tsx') },
  { path: '/requests', title: 'Requests', roles: desk, load: () => import('./requests/requests-page.tsx') },
  { path: '/requests/$id', title: 'Request', roles: desk, load: () => import('./requests/request-page.tsx') },
  {
    path: '/not-ready',
    title: 'Not ready',
    roles: [...desk, 'builder'],
    load: () => import('./not-ready-page.tsx'),
  },
  {
    path: '/raters',
    title: 'Raters',
    roles: ['office', 'administrator'],
    load: () => import('./raters-page.tsx'),
  },
  { path: '/calendar', title: 'Calendar', roles: ['rater'], load: () => import('./calendar-page.tsx') },
  {
    path: '/ready/$token',
    title: 'Is the house ready?',
    entry: 'link',
    load: () => import('./readiness/link-page.tsx'),
  },
  {
    path: '/mail-choices/$token',
    title: 'Your mail',
    entry: 'link',
    load: () => import('./mail-choices-page.tsx'),
  },
];
