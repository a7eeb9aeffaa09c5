/**
 * The derivative of a function by one of its quantities, by central differences over five points,
 * (8 · (f₊₁ − f₋₁) − (f₊₂ − f₋₂)) / 12h, unit of f per unit of x. The step is a small part of the uncertainty,
 * because that is the width in which the slope matters, and never so small that digits cancel.
 * @param index which of the values @param u its standard uncertainty
 * NaN when the function gives no number there. Never throws unless `fn` does. Source: textbook formula; JCGM
 * 100, 5.1.3 note 2 (from memory) allows differences in place of derivatives.
 */
export function sensitivity(
  fn: (values: readonly number[]) => number,
  values: readonly number[],
  index: number,
  u: number,
): number {
  const x = values[index]!;
  const step = Math.max(u / 64, Math.abs(x) * 1e-6) || 1e-6;
  const at = (steps: number) => fn(values.with(index, x + steps * step));
  return (8 * (at(1) - at(-1)) - (at(2) - at(-2))) / (12 * step);
}
