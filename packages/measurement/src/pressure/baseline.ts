/** Largest mean baseline for which an envelope test is sound, Pa: ISO 9972:2015 as seen on a checklist page. */
export const largestBaselinePa = 5;

/**
 * The pressure that the fan made: the pressure read minus the mean of the pressures without the fan.
 * @param reading Pa, with its sign
 * @param baselines Pa, with their signs, read before and after with the fan off; none counts as zero
 * @returns Pa, with its sign, never −0. NaN when an argument is not finite. Never throws.
 * Source: bias correction of ANSI/RESNET/ICC 380 and ISO 9972 (from memory); vector: −38.0 read with −2.0
 * gives 36 Pa (computed independently).
 */
export function inducedPressure(reading: number, baselines: readonly number[]): number {
  return reading - meanBaseline(baselines) + 0;
}

/** The mean of the baseline pressures, Pa, with its sign; 0 when there are none. Never throws. */
export function meanBaseline(baselines: readonly number[]): number {
  if (baselines.length === 0) return 0;
  return baselines.reduce((sum, baseline) => sum + baseline, 0) / baselines.length;
}
