import { staff } from '@countercheck/contracts';
import type { PageRoute } from '../../lib/page-route.ts';

export const installerRoutes: PageRoute[] = [
  { path: '/installers', title: 'Installers', roles: staff, load: () => import('./installers-page.tsx') },
];
