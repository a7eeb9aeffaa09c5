/**
 * Adjusted p-values that keep the expected share of false ones among the discoveries at a level, whatever the
 * dependence between the tests: Benjamini and Yekutieli's step-up procedure (Annals of Statistics 29, 2001; from
 * memory). It is Benjamini and Hochberg's (JRSS B 57, 1995; from memory) with every value multiplied by
 * 1 + 1/2 + … + 1/m. The general one is used here because the signals of one rater look at the same readings, and
 * raters share houses, plans and installers, so that positive dependence cannot be promised.
 * @param ps p-values, 0 to 1
 * @returns for each, the smallest level at which it is a discovery, 0 to 1, in the same order. Never throws.
 */
export function yekutieli(ps: readonly number[]): number[] {
  const harmonic = ps.reduce((sum, _, i) => sum + 1 / (i + 1), 0);
  return stepUp(ps, harmonic);
}

/** As `yekutieli`, for tests that are independent or positively dependent: Benjamini and Hochberg's procedure. */
export function hochberg(ps: readonly number[]): number[] {
  return stepUp(ps, 1);
}

function stepUp(ps: readonly number[], factor: number): number[] {
  const order = ps.map((p, place) => ({ p, place })).sort((a, b) => b.p - a.p);
  const adjusted = new Array<number>(ps.length);
  let least = 1;
  order.forEach(({ p, place }, i) => {
    const rank = ps.length - i;
    least = Math.min(least, (p * ps.length * factor) / rank);
    adjusted[place] = least;
  });
  return adjusted;
}
