/**
 * Rounds to a number of decimals, halves away from zero, as a person does on paper: 1.005 → 1.01 at two
 * decimals, although the nearest binary number lies below it. Never gives −0.
 * @param value any finite number, in any unit
 * @param decimals whole number from 0 to 15
 * @throws RangeError when the value is not finite or the decimals are not such a number.
 */
export function roundTo(value: number, decimals: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`cannot round ${value}`);
  if (!Number.isInteger(decimals) || decimals < 0 || decimals > 15)
    throw new RangeError(`cannot round to ${decimals} decimals`);
  const shifted = shift(Number(Math.abs(value).toPrecision(15)), decimals);
  const rounded = shift(Math.round(shifted), -decimals);
  return value < 0 && rounded !== 0 ? -rounded : rounded;
}

/** A finite number with the float noise beyond 12 significant digits taken off: 0.1 + 0.2 → 0.3. */
export function withoutNoise(value: number): number {
  return Number(value.toPrecision(12)) + 0;
}

/**
 * A number for a line of working: at most `decimals` decimals, no trailing zeros, e.g. 95.10 → "95.1".
 * @throws RangeError as `roundTo`.
 */
export function plainNumber(value: number, decimals = 3): string {
  return String(roundTo(value, decimals));
}

// Moving the decimal point in the text keeps 1.005 × 100 from becoming 100.49999999999999.
function shift(value: number, places: number): number {
  const [digits, power = '0'] = String(value).split('e');
  return Number(`${digits}e${Number(power) + places}`);
}
