/** Anything as a bag of keys; whatever is not a plain object is an empty bag. Never throws. */
export function bag(value: unknown): Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : {};
}

/** Anything as a list; whatever is not a list is an empty one. Never throws. */
export function list(value: unknown): unknown[] {
  return Array.isArray(value) ? value : [];
}
