import type { PageRoute } from '../../lib/page-route.ts';

const admin = ['administrator'] as const;

export const administrationRoutes: PageRoute[] = [
  { path: '/users', title: 'Users', roles: admin, load: () => import('./users/users-page.tsx') },
  { path: '/company', title: 'Company options', roles: admin, load: () => import('./company-page.tsx') },
  { path: '/mail', title: 'Mail', roles: admin, load: () => import('./mail-page.tsx') },
  { path: '/events', title: 'Events', roles: [...admin, 'quality'], load: () => import('./events-page.tsx') },
];
