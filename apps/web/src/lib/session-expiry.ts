function bell() {
  const listeners = new Set<() => void>();
  return {
    ring(): void {
      for (const listener of listeners) listener();
    },
    hear(listener: () => void): () => void {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
const expired = bell();
const signedIn = bell();

/** Tells whoever listens that the server no longer knows this session. */
export const announceExpiry = expired.ring;
export const onExpiry = expired.hear;

/** Tells whoever waited for it that somebody has signed in again over the page. */
export const announceSignedIn = signedIn.ring;
export const onSignedIn = signedIn.hear;
