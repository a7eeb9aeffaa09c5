import { problem } from '../outcome.ts';

/**
 * The problem of a matrix that cannot hold correlations of `count` quantities, or null: it must be square and
 * symmetric, with ones on the diagonal, no entry beyond ±1, and no combination of quantities with a variance
 * below zero. Never throws.
 */
export function correlationProblem(
  count: number,
  correlation?: readonly (readonly number[])[],
): ReturnType<typeof problem> | null {
  if (!correlation) return null;
  const shaped = correlation.length === count && correlation.every((row) => row.length === count);
  if (shaped && isCorrelation(correlation) && cholesky(correlation)) return null;
  const message = `The correlations must be a symmetric ${count} by ${count} table with ones on the diagonal that quantities can have together.`;
  return problem('correlation', 'bad-correlation', message);
}

function isCorrelation(matrix: readonly (readonly number[])[]): boolean {
  return matrix.every((row, i) =>
    row.every((r, j) => (i === j ? r === 1 : Math.abs(r) <= 1 && r === matrix[j]![i])),
  );
}

/**
 * The lower triangle L with L · Lᵀ = matrix (Cholesky), or null when there is none. Full correlation, where a
 * diagonal entry vanishes, is allowed. Never throws. Source: textbook method.
 */
export function cholesky(matrix: readonly (readonly number[])[]): number[][] | null {
  const lower: number[][] = [];
  for (const [i, row] of matrix.entries()) {
    const made: number[] = [];
    for (let j = 0; j <= i; j++) {
      const other = j === i ? made : lower[j]!;
      let rest = row[j]!;
      for (let k = 0; k < j; k++) rest -= made[k]! * other[k]!;
      if (j === i) {
        // Rounding can leave a vanishing variance a little below zero.
        if (rest < -1e-9) return null;
        made.push(Math.sqrt(Math.max(0, rest)));
      } else if (other[j]! > 1e-9) made.push(rest / other[j]!);
      else if (Math.abs(rest) < 1e-6) made.push(0);
      else return null;
    }
    lower.push(made);
  }
  return lower;
}
