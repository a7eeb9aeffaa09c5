import { type Checked, computed, problem } from '../outcome.ts';
import type { InstrumentFacts } from '../types.ts';
import { accuracyLimit } from '../uncertainty.ts';
import { plainNumber } from '../units/round.ts';
import { nativeUnit } from './native-unit.ts';

/** Where a quantity lies that could not be read as a number: from `low` to `high`, or from `low` up when null. */
export interface Interval {
  low: number;
  high: number | null;
}

export type BoundedReading =
  { kind: 'read'; value: number } | ({ kind: 'below-resolution'; words: string } & Interval);

/**
 * A reading of something that cannot be below zero, or, when the display's step is too coarse to show it, the
 * interval in which it lies: from 0 to the reading + half the step + the stated accuracy there.
 * @param reading zero or more, in the instrument's native unit (`nativeUnit`); the interval is in the same unit
 * A display with unknown resolution is taken as it shows. Problems: `not-a-number`, `negative`. Never throws.
 * Source: half a step as the limit of a display's error, JCGM 100, F.2.2.1 (from memory).
 */
export function boundedReading(instrument: InstrumentFacts, reading: number): Checked<BoundedReading> {
  const unit = nativeUnit(instrument.kind);
  if (!Number.isFinite(reading)) return problem('reading', 'not-a-number', 'The reading is not a number.');
  if (reading < 0) {
    const message = `The reading is ${plainNumber(reading)} ${unit}, but it cannot be negative.`;
    return problem('reading', 'negative', message);
  }
  const step = instrument.resolution ?? 0;
  if (!(step > 0) || reading >= step) return computed({ kind: 'read', value: reading });
  const high = reading + step / 2 + (accuracyLimit(instrument, reading) ?? 0);
  const words = `${instrument.label} shows steps of ${plainNumber(step)} ${unit}; all that is known is: at most ${plainNumber(high)} ${unit}.`;
  return computed({ kind: 'below-resolution', low: 0, high, words });
}

/**
 * Whether something of which only an interval is known keeps a limit: `holds` or `fails` when that is so for every
 * value in the interval, otherwise `open`. Limits included. Never throws; no number gives `open`.
 */
export function intervalAgainst(
  { low, high }: Interval,
  side: 'at-most' | 'at-least',
  limit: number,
): 'holds' | 'fails' | 'open' {
  const top = high ?? Infinity;
  if (side === 'at-most') return top <= limit ? 'holds' : low > limit ? 'fails' : 'open';
  return low >= limit ? 'holds' : top < limit ? 'fails' : 'open';
}
