export interface Spread {
  p50: number;
  p95: number;
}

/** The middle and the slow end of a list of times, in ms, by nearest rank. */
export function spread(times: number[]): Spread {
  const sorted = [...times].sort((a, b) => a - b);
  const rank = (share: number) =>
    sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
  return { p50: rank(0.5), p95: rank(0.95) };
}
