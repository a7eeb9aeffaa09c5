/**
 * Flow through an opening or a flow device: Q = C · |dP|^n.
 * @param c flow coefficient, cfm per Pa^n (or any flow unit per Pa^n; the result is in that unit)
 * @param n pressure exponent, dimensionless
 * @param dP pressure difference, Pa; its sign only says which way the air goes
 * Gives NaN when an argument is not finite. Never throws.
 * Source: power law as in ASTM E779 and ISO 9972, seen in an open textbook (docs/sources.md, Measurement 1).
 */
export function powerLawFlow(c: number, n: number, dP: number): number {
  if (![c, n, dP].every(Number.isFinite)) return NaN;
  return c * Math.abs(dP) ** n;
}
