import type { QueryClient } from '@tanstack/react-query';
import {
  createRootRouteWithContext,
  createRoute,
  createRouter,
  lazyRouteComponent,
  Outlet,
  type ErrorComponentProps,
} from '@tanstack/react-router';
import { useEffect } from 'react';
import { Problem } from '../components/states/index.ts';
import type { PageRoute } from '../lib/page-route.ts';
import { sessionQuery } from '../lib/session.ts';
import { pageRoutes } from './routes.ts';
import { Allowed } from './shell/allowed.tsx';
import { NotFound } from './shell/not-found.tsx';
import { Shell } from './shell/shell.tsx';

const rootRoute = createRootRouteWithContext<{ client: QueryClient }>()({
  component: Outlet,
  notFoundComponent: NotFound,
});
const sessionRoute = createRoute({
  getParentRoute: () => rootRoute,
  id: 'session',
  component: Shell,
  // Who is here is asked while the page's own chunk is on its way.
  loader: ({ context }) => void context.client.prefetchQuery(sessionQuery),
});
const linkRoute = createRoute({ getParentRoute: () => rootRoute, id: 'link', component: LinkFrame });

function LinkFrame() {
  return (
    <main id="content" className="link-frame">
      <Outlet />
    </main>
  );
}

function Titled({ page, Body }: { page: PageRoute; Body: React.ComponentType }) {
  useEffect(() => {
    document.title = `${page.title} – Countercheck`;
  }, [page.title]);
  return page.entry === 'link' ? (
    <Body />
  ) : (
    <Allowed roles={page.roles}>
      <Body />
    </Allowed>
  );
}

function routeOf(page: PageRoute, parent: typeof sessionRoute | typeof linkRoute) {
  const Body = lazyRouteComponent(page.load);
  return createRoute({
    getParentRoute: () => parent as typeof sessionRoute,
    path: page.path,
    // A page with its own chunk is fetched when a link to it is pointed at. It has to be told to the body itself: one
    // that still waits for its chunk when it is first drawn throws the whole shell around it away.
    component: Object.assign(() => <Titled page={page} Body={Body} />, {
      preload: () => Body.preload?.(),
    }),
  });
}

function Fault({ error, reset }: ErrorComponentProps) {
  return <Problem error={error} retry={reset} />;
}

export function createAppRouter(client: QueryClient) {
  const inSession = pageRoutes.filter((page) => page.entry !== 'link');
  const byLink = pageRoutes.filter((page) => page.entry === 'link');
  const router = createRouter({
    routeTree: rootRoute.addChildren([
      sessionRoute.addChildren(inSession.map((page) => routeOf(page, sessionRoute))),
      linkRoute.addChildren(byLink.map((page) => routeOf(page, linkRoute))),
    ]),
    context: { client },
    defaultPreload: 'intent',
    scrollRestoration: true,
    defaultErrorComponent: Fault,
    defaultNotFoundComponent: NotFound,
  });
  router.subscribe('onBeforeNavigate', ({ pathChanged, fromLocation }) => {
    // Tells the next page that it was reached from another one and should take the focus.
    if (fromLocation && pathChanged) document.body.dataset.navigated = 'true';
  });
  return router;
}
