/**
 * Adjusted p-values that keep the expected share of false ones among the discoveries at a level, for tests that are
 * independent or positively dependent: Benjamini and Hochberg's step-up procedure (JRSS B 57, 1995; from memory).
 * @param ps p-values, 0 to 1
 * @returns for each, the smallest level at which it is a discovery, 0 to 1, in the same order. Never throws.
 */
export function hochberg(ps: readonly number[]): number[] {
  const order = ps.map((p, place) => ({ p, place })).sort((a, b) => b.p - a.p);
  const adjusted = new Array<number>(ps.length);
  let least = 1;
  order.forEach(({ p, place }, i) => {
    least = Math.min(least, (p * ps.length) / (ps.length - i));
    adjusted[place] = least;
  });
  return adjusted;
}

/**
 * As `hochberg`, over families of tests: a family's p-value is its smallest times its number of tests (Bonferroni,
 * right whatever the dependence within), families are chosen by `hochberg`, and within a chosen family a test stands
 * at the level times the share of families chosen (Benjamini and Bogomolov, JRSS B 76, 2014; from memory).
 * @param families p-values of each family, 0 to 1
 * @returns for each test the smallest level at which it stands, 0 to 1, in the same order. Never throws.
 */
export function overFamilies(families: readonly (readonly number[])[]): number[][] {
  const count = families.length;
  const own = families.map((ps) => ps.map((p) => Math.min(1, p * ps.length)));
  const chosenAt = hochberg(own.map((ps) => Math.min(1, ...ps))).sort((a, b) => a - b);
  return own.map((ps) =>
    ps.map((p) =>
      chosenAt.reduce((least, level, i) => Math.min(least, Math.max(level, (p * count) / (i + 1))), 1),
    ),
  );
}
