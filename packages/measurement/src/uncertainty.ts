import type { QuantityKind } from './quantities.ts';
import { quantities } from './quantities.ts';
import type { InstrumentFacts } from './types.ts';
import { nativeUnit } from './instruments/native-unit.ts';
import { convert } from './units/convert.ts';
import { unitTable } from './units/unit-table.ts';

/**
 * The largest error that an instrument's stated accuracy allows at a reading: the larger of a share of the
 * reading and an absolute figure. `reading` and the result are in the instrument's native unit.
 * Formula: max(|reading| × percent / 100, absolute). Source: the way accuracy is stated for manometers, "1 %
 * or 0.25 Pa" (seen in an article on instruments, see docs/sources.md); "larger of" is common practice, no
 * published source. Gives null when no usable accuracy is stated (both zero, negative or not finite) or the
 * reading is not finite. Never throws.
 */
export function accuracyLimit(
  instrument: Pick<InstrumentFacts, 'accuracyPercent' | 'accuracyAbsolute'>,
  reading: number,
): number | null {
  const { accuracyPercent, accuracyAbsolute } = instrument;
  const stated = [accuracyPercent, accuracyAbsolute];
  if (!Number.isFinite(reading) || stated.some((part) => !(part >= 0 && part < Infinity))) return null;
  if (accuracyPercent === 0 && accuracyAbsolute === 0) return null;
  return Math.max((Math.abs(reading) * accuracyPercent) / 100, accuracyAbsolute);
}

/**
 * The standard uncertainty of a reading from the instrument's stated accuracy, taken as the half-width of a
 * rectangular distribution: accuracy / √3. Source: JCGM 100, 4.3.7 (from memory).
 * @param reading in the stored unit of `quantity`; the result is in the same unit
 * Gives null without an instrument, without a stated accuracy, or when the accuracy is stated for another
 * dimension (a flow device's accuracy says nothing about a pressure). The display's step is not included.
 * Never throws.
 */
export function standardUncertainty(
  instrument: InstrumentFacts | null,
  reading: number,
  quantity: QuantityKind,
): number | null {
  if (!instrument || !Number.isFinite(reading)) return null;
  const native = nativeUnit(instrument.kind);
  const stored = quantities[quantity].unit;
  if (unitTable[native].dimension !== unitTable[stored].dimension) return null;
  const limit = accuracyLimit(instrument, convert(reading, stored, native));
  if (limit === null) return null;
  // A difference converts by the factor alone; the offset of a temperature scale must not enter.
  return (limit * unitTable[native].factor) / unitTable[stored].factor / Math.sqrt(3);
}

/**
 * Propagates the uncertainty of a pressure through a power law y = k · P^exponent:
 * u(y) = |y| × |exponent| × u(P) / |P|. Source: JCGM 100, 5.1.6 note 1 (from memory).
 * @param result y, in any unit; the uncertainty is in the same unit
 * @param pressure P and @param pressureUncertainty u(P), in one unit
 * Gives null when an argument is not finite, the pressure is zero or the uncertainty negative. Never throws.
 */
export function powerUncertainty(
  result: number,
  exponent: number,
  pressure: number,
  pressureUncertainty: number,
): number | null {
  if (![result, exponent, pressure, pressureUncertainty].every(Number.isFinite)) return null;
  if (pressure === 0 || pressureUncertainty < 0) return null;
  return (Math.abs(result) * Math.abs(exponent) * pressureUncertainty) / Math.abs(pressure);
}
