import { type Checked, computed, problem } from '../outcome.ts';

export interface CurvePoint {
  x: number;
  y: number;
}

export interface MonotoneCurve {
  /** the points in the order of x */
  points: readonly CurvePoint[];
  /** y at an x between the first and the last point; problems `below-table`, `above-table`, `not-a-number` */
  at(x: number): Checked<number>;
  /** dy/dx there; the same problems */
  slopeAt(x: number): Checked<number>;
}

/**
 * A curve through points that rises wherever the points rise and never overshoots them: piecewise cubic Hermite
 * interpolation with the tangents of Fritsch and Carlson. Each inner tangent is the mean of the two secants beside
 * it (zero where they differ in sign), each end tangent its secant; where the tangents α and β of an interval, as
 * multiples of its secant, lie outside the circle α² + β² = 9, both are scaled back onto it.
 * @param points two or more, in any order, x and y in any units, no x twice
 * Outside the points nothing is extrapolated. Problems: `too-few-points`, `not-a-number`, `repeated-point`.
 * Never throws. Source: Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980) 238 (from memory); checked against an
 * implementation in another language (computed independently) on their own example.
 */
export function monotoneCurve(points: readonly CurvePoint[]): Checked<MonotoneCurve> {
  if (points.length < 2) {
    return problem('points', 'too-few-points', `A table needs two points or more; it has ${points.length}.`);
  }
  if (!points.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))) {
    return problem('points', 'not-a-number', 'A point of the table is not a number.');
  }
  const sorted = [...points].sort((a, b) => a.x - b.x);
  const twice = sorted.find(({ x }, i) => x === sorted[i - 1]?.x);
  if (twice) {
    return problem('points', 'repeated-point', `The table has ${twice.x} twice.`);
  }
  const pieces = piecesOf(sorted);
  const on = (x: number, read: (piece: Piece, x: number) => number): Checked<number> => {
    if (!Number.isFinite(x)) return problem('x', 'not-a-number', 'The value looked up is not a number.');
    const span = `the table holds from ${sorted[0]?.x} to ${sorted.at(-1)?.x}`;
    const piece = pieces.find(({ to }) => x <= to.x);
    if (!piece) return problem('x', 'above-table', `${x} was looked up, but ${span}.`);
    if (x < piece.from.x) return problem('x', 'below-table', `${x} was looked up, but ${span}.`);
    return computed(read(piece, x));
  };
  return computed({ points: sorted, at: (x) => on(x, height), slopeAt: (x) => on(x, slope) });
}

interface Piece {
  from: CurvePoint;
  to: CurvePoint;
  /** tangents at both ends, dy/dx */
  m0: number;
  m1: number;
}

function piecesOf(points: readonly CurvePoint[]): Piece[] {
  const pairs = points.slice(1).map((to, i) => ({ from: points[i] ?? to, to }));
  const secants = pairs.map(({ from, to }) => (to.y - from.y) / (to.x - from.x));
  const tangents = points.map((_, i) => tangent(secants[i - 1], secants[i]));
  secants.forEach((secant, i) => {
    const [m0, m1] = withinCircle(tangents[i] ?? 0, tangents[i + 1] ?? 0, secant);
    tangents[i] = m0;
    tangents[i + 1] = m1;
  });
  return pairs.map((pair, i) => ({ ...pair, m0: tangents[i] ?? 0, m1: tangents[i + 1] ?? 0 }));
}

function tangent(before: number | undefined, after: number | undefined): number {
  if (before === undefined) return after ?? 0;
  if (after === undefined) return before;
  return before * after > 0 ? (before + after) / 2 : 0;
}

function withinCircle(m0: number, m1: number, secant: number): [number, number] {
  if (secant === 0) return [0, 0];
  const radius = Math.hypot(m0 / secant, m1 / secant);
  return radius <= 3 ? [m0, m1] : [(3 * m0) / radius, (3 * m1) / radius];
}

function height({ from, to, m0, m1 }: Piece, x: number): number {
  const h = to.x - from.x;
  const t = (x - from.x) / h;
  const s = 1 - t;
  // In this form the ends come out as the points themselves, to the last digit.
  return s * s * ((1 + 2 * t) * from.y + t * h * m0) + t * t * ((1 + 2 * s) * to.y - s * h * m1);
}

function slope({ from, to, m0, m1 }: Piece, x: number): number {
  const h = to.x - from.x;
  const t = (x - from.x) / h;
  const secant = (to.y - from.y) / h;
  return 6 * t * (1 - t) * secant + (1 - t) * (1 - 3 * t) * m0 + t * (3 * t - 2) * m1;
}
