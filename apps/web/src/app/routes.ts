import { accountRoutes } from '../features/account/routes.ts';
import { overviewRoutes } from '../features/overview/routes.ts';
import type { PageRoute } from '../lib/page-route.ts';

/** Every page of the service behind the entrance. A feature brings its own list. */
export const pageRoutes: PageRoute[] = [...overviewRoutes, ...accountRoutes];
