const lookEveryMs = 30 * 60_000;

/**
 * Registers the service worker and calls `offer` when a newer one waits. It takes over only when told; then this
 * page, and every other tab, is loaded anew from it. Gives back how to stop looking.
 */
export function registerWorker(offer: (takeOver: () => void) => void): () => void {
  const workers = navigator.serviceWorker as ServiceWorkerContainer | undefined;
  if (!workers || !import.meta.env.PROD) return () => undefined;
  let timer: ReturnType<typeof setInterval> | undefined;
  // The first worker of all takes nothing over from anybody.
  const hadOne = workers.controller !== null;
  const changed = () => {
    if (hadOne) window.location.reload();
  };
  workers.addEventListener('controllerchange', changed);

  const waits = (registration: ServiceWorkerRegistration) => {
    if (registration.waiting && workers.controller)
      offer(() => registration.waiting?.postMessage('take-over'));
  };
  void workers.register('/field-worker.js', { updateViaCache: 'none' }).then(
    (registration) => {
      waits(registration);
      registration.addEventListener('updatefound', () => {
        registration.installing?.addEventListener('statechange', () => waits(registration));
      });
      const look = () => void registration.update().catch(() => undefined);
      timer = setInterval(look, lookEveryMs);
    },
    () => undefined,
  );
  return () => {
    clearInterval(timer);
    workers.removeEventListener('controllerchange', changed);
  };
}
