import { useEffect, useSyncExternalStore } from 'react';

interface State<Part> {
  part: Part | null;
  error: unknown;
}

/** A part of the program that the first view does without. */
export interface Later<Part> {
  load(): Promise<Part>;
  state(): State<Part>;
  subscribe(listener: () => void): () => void;
}

/** Loads a part once, when it is first asked for; after a failure the next one who asks tries again. */
export function later<Part>(bring: () => Promise<Part>): Later<Part> {
  let state: State<Part> = { part: null, error: null };
  let coming: Promise<Part> | null = null;
  const listeners = new Set<() => void>();
  const tell = (next: State<Part>) => {
    state = next;
    for (const listener of listeners) listener();
  };
  return {
    load: () =>
      (coming ??= bring().then(
        (part) => {
          tell({ part, error: null });
          return part;
        },
        (error: unknown) => {
          coming = null;
          tell({ part: null, error });
          throw error;
        },
      )),
    state: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  };
}

/** The part once it is there, or why it did not come; asked for after the first view. */
export function useLater<Part>(part: Later<Part>, wanted = true): State<Part> {
  useEffect(() => {
    if (wanted) part.load().catch(() => undefined);
  }, [part, wanted]);
  return useSyncExternalStore(part.subscribe, part.state);
}

/** Does something once the page has nothing more urgent to do. */
export function whenIdle(deed: () => void): void {
  if ('requestIdleCallback' in window) requestIdleCallback(deed);
  else setTimeout(deed, 200);
}
