import { whereLogIs } from './solve.ts';

/** The parameters of a beta distribution, both above 0. */
interface Shape {
  a: number;
  b: number;
}

// A place x between 0 and 1 goes by its log-odds w = ln(x / (1 − x)), so that both x and 1 − x keep their digits.
const share = (w: number) => 1 / (1 + Math.exp(-w));
const softplus = (v: number) => Math.max(v, 0) + Math.log1p(Math.exp(-Math.abs(v)));

// What Stirling's formula for ln Γ(a) leaves out: ln Γ(a) = (a − ½) ln a − a + ½ ln 2π + stirlingRest(a).
function stirlingRest(a: number): number {
  let rest = 0;
  let up = a;
  for (; up < 16; up++) rest += (up + 0.5) * Math.log1p(1 / up) - 1;
  const square = up * up;
  return (
    rest + (1 / 12 - (1 / 360 - (1 / 1260 - (1 / 1680 - 1 / 1188 / square) / square) / square) / square) / up
  );
}

// ln(1 + difference), and by other means where that is far from 0.
const logRatio = (difference: number, far: number) =>
  Math.abs(difference) < 0.5 ? Math.log1p(difference) : far;

// ln of xᵃ (1 − x)ᵇ / B(a, b) as a function of w, which is also the density of w.
function logDensityOf({ a, b }: Shape): (w: number) => number {
  const n = a + b;
  const rest = stirlingRest(n) - stirlingRest(a) - stirlingRest(b);
  const constant = 0.5 * Math.log((a * b) / (2 * Math.PI * n)) + rest;
  const [logA, logB] = [Math.log(n / a), Math.log(n / b)];
  return (w) => {
    const gap = share(w) * b - share(-w) * a;
    const logX = logRatio(gap / a, logA - softplus(-w));
    const logY = logRatio(-gap / b, logB - softplus(w));
    return constant + a * logX + b * logY;
  };
}

// The continued fraction of the incomplete beta function by Lentz's method; quick for x below (a + 1) / (a + b + 2).
function fraction(x: number, { a, b }: Shape): number {
  const n = a + b;
  let c = 1;
  let d = 1 / (1 - (n * x) / (a + 1));
  let value = d;
  for (let m = 1; m < 20_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d);
    c = 1 + even / c;
    value *= d * c;
    const odd = (-(a + m) * (n + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d);
    c = 1 + odd / c;
    value *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return value;
}

/**
 * The log-odds ln(x / (1 − x)) of the place x that has a chance below it. @param chance above 0 up to ½. Never throws.
 */
export function betaLogOdds(chance: number, { a, b }: Shape): number {
  const densityAt = logDensityOf({ a, b });
  return whereLogIs(Math.log(chance), Math.log(a / b), (w) => {
    const density = densityAt(w);
    const x = share(w);
    const log =
      x < (a + 1) / (a + b + 2)
        ? density - Math.log(a) + Math.log(fraction(x, { a, b }))
        : Math.log1p((-Math.exp(density) / b) * fraction(share(-w), { a: b, b: a }));
    return { log, slope: Math.exp(density - log) };
  });
}

/**
 * The quantile of the beta distribution: the x from 0 to 1 below which a value lies with chance p; NaN for a p outside
 * 0 to 1 or parameters that are not above zero. Good to 11 digits up to parameters of a million. Never throws.
 * Source: continued fraction of DLMF 8.17.22 (from memory), Newton's method on the logarithm of the chance as a
 * function of the log-odds, where it is concave; checked with an independent library (@stdlib).
 */
export function betaQuantile(p: number, a: number, b: number): number {
  if (!(p >= 0 && p <= 1) || !(a > 0 && a < Infinity) || !(b > 0 && b < Infinity)) return NaN;
  if (p === 0 || p === 1) return p;
  return share(p <= 0.5 ? betaLogOdds(p, { a, b }) : -betaLogOdds(1 - p, { a: b, b: a }));
}
