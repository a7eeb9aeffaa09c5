import type { Random } from '../random.ts';
import type { FanRange, KitInstrument } from '../cast.ts';

/** One particular instrument: its error stays with it, its noise does not. */
export interface CarriedInstrument {
  id: string;
  calibrationId: string;
  facts: KitInstrument;
  /** systematic error as a share of the reading, within the stated accuracy */
  gain: number;
}

/** Rounds to the display's step without leaving float noise behind. */
export function toStep(value: number, step: number): number {
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return Number((Math.round(value / step) * step).toFixed(decimals));
}

/** What the display shows: the truth, the instrument's own error, some noise, rounded to its step. */
export function show(
  truth: number,
  instrument: CarriedInstrument,
  random: Random,
  step = instrument.facts.resolution,
): number {
  const noise = (instrument.facts.accuracyPercent / 100) * 0.25;
  return toStep(truth * (1 + instrument.gain) * (1 + random.normal(0, noise)), step);
}

/** The range that keeps the fan pressure comfortable, and the pressure it shows for this flow. */
export function fanReading(
  flow: number,
  instrument: CarriedInstrument,
  random: Random,
): { range: string; pressure: number } | null {
  const pressureOn = (range: FanRange) => (flow / range.c) ** (1 / range.n);
  const usable = instrument.facts.ranges.filter(
    (range) => pressureOn(range) > range.minPa * 1.05 && pressureOn(range) < range.maxPa * 0.95,
  );
  const best = usable.sort(
    (a, b) => Math.abs(Math.log(pressureOn(a) / 90)) - Math.abs(Math.log(pressureOn(b) / 90)),
  )[0];
  if (!best) return null;
  const seen = pressureOn(best) * (1 + instrument.gain) ** (1 / best.n) * (1 + random.normal(0, 0.006));
  return { range: best.range, pressure: toStep(seen, 0.1) };
}
