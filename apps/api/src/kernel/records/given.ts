/** The keys that were really given: a change leaves the others as they are. */
export function given<T extends object>(body: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(body).filter(([, value]) => value !== undefined)) as never;
}
