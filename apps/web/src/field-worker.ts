/// <reference lib="webworker" />
import { clientsClaim } from 'workbox-core';
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: { url: string; revision: string | null }[] };

// The pages and nothing else: no answer of the service is ever kept here.
precacheAndRoute(self.__WB_MANIFEST);
cleanupOutdatedCaches();
registerRoute(
  new NavigationRoute(createHandlerBoundToURL('/index.html'), {
    // Signing in, personal links and what the service itself answers come from the network.
    denylist: [/^\/api\//, /^\/sign-in/, /^\/forgot/, /^\/access\//, /^\/figures\//, /^\/calendar\//],
  }),
);

// A newer version takes over only when a person said so.
self.addEventListener('message', (event) => {
  if (event.data === 'take-over') void self.skipWaiting();
});
clientsClaim();
