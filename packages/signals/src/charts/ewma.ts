export interface EwmaChart {
  /** the weighted mean after each value */
  means: number[];
  /** limits after each value: they widen from the first to their final width */
  upper: number[];
  lower: number[];
  outside: number[];
}

/**
 * Exponentially weighted moving averages: z = λ·x + (1 − λ)·z before, from `target` on, with limits at
 * target ± L·σ·√(λ ÷ (2 − λ) · (1 − (1 − λ)^2i)). Small lasting shifts show here before single values leave
 * their limits. Source: NIST/SEMATECH e-Handbook, 6.3.2.4 (from memory), which uses the final width throughout.
 * @param weight λ, above 0 to 1; 0.2 unless told; @param width L, 3 unless told. Unit of the values.
 * Throws RangeError when the weight is not in its range or σ is not above zero.
 */
export function ewmaChart(
  values: readonly number[],
  {
    target,
    sigma,
    weight = 0.2,
    width = 3,
  }: { target: number; sigma: number; weight?: number; width?: number },
): EwmaChart {
  if (!(weight > 0 && weight <= 1)) throw new RangeError('The weight lies above 0 and at most at 1.');
  if (!(sigma > 0)) throw new RangeError('The standard deviation is above zero.');
  let z = target;
  const means = values.map((value) => (z = weight * value + (1 - weight) * z));
  const half = values.map(
    (_, i) => width * sigma * Math.sqrt((weight / (2 - weight)) * (1 - (1 - weight) ** (2 * (i + 1)))),
  );
  return {
    means,
    upper: half.map((each) => target + each),
    lower: half.map((each) => target - each),
    outside: means.flatMap((mean, i) => (Math.abs(mean - target) > half[i]! ? [i] : [])),
  };
}
