let ahead: number | null = null;

/** Takes note of the time at which the service answered. */
export function noteServiceTime(date: string | null): void {
  const service = date === null ? Number.NaN : Date.parse(date);
  if (Number.isFinite(service)) ahead = Date.now() - service;
}

/**
 * By how many ms this device's clock is ahead of the service's, negative when it is behind; null before the first
 * answer. As near as an answer takes to arrive and a second.
 */
export const clockAhead = (): number | null => ahead;
