/**
 * P(the sum is at least `least`) of independent counts, by convolution: exact but for rounding. Never throws.
 * @param counts for each the chances of 0, 1, 2 …
 */
export function atLeast(least: number, counts: readonly (readonly number[])[]): number {
  let exactly = [1];
  for (const chances of counts) {
    const next = new Array<number>(exactly.length + chances.length - 1).fill(0);
    exactly.forEach((p, k) => {
      chances.forEach((chance, more) => {
        next[k + more]! += p * chance;
      });
    });
    exactly = next;
  }
  return Math.min(
    1,
    exactly.slice(least).reduce((sum, p) => sum + p, 0),
  );
}
