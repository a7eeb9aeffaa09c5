const listeners = new Set<() => void>();

/** Tells whoever listens that the server no longer knows this session. */
export function announceExpiry(): void {
  for (const listener of listeners) listener();
}

export function onExpiry(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
