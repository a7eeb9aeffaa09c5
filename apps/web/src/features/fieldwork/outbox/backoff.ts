const shortest = 1_000;
const longest = 120_000;

/**
 * How long to wait after so many failures in a row, in ms: doubled each time up to two minutes, of which a random
 * part between a half and all is taken, so that a street of phones does not come back in one moment.
 */
export function pauseAfter(failures: number, random: () => number): number {
  const full = Math.min(longest, shortest * 2 ** Math.min(failures - 1, 20));
  return Math.round(full * (0.5 + random() / 2));
}
