import { type Checked, computed, problem } from '../outcome.ts';

/** Oxygen in dry air, % by volume, as combustion analysers use it. From memory. */
export const oxygenInAir = 20.9;

/** Oxygen, %, from which on the sample is so thin that the correction says nothing. Common practice, no published source. */
export const mostOxygen = 20;

/**
 * Carbon monoxide as it would be without the excess air in the sample: CO × 20.9 / (20.9 − O2).
 * @param measured ppm as measured, zero or more
 * @param oxygen % by volume in the same sample, from 0 to below 20
 * @returns ppm air-free, never below the measured value
 * Problems: `bad-concentration`, `bad-oxygen`, `too-diluted` (20 % or more: the probe draws room air). Never
 * throws. Source: from memory (textbook of combustion analysis); the tests' vectors are hand computed.
 */
export function airFreeCarbonMonoxide(measured: number, oxygen: number): Checked<number> {
  if (!(measured >= 0 && measured < Infinity)) {
    return problem(
      'values.carbonMonoxide',
      'bad-concentration',
      `Carbon monoxide is ${measured} ppm; it must be zero or more.`,
    );
  }
  if (!(oxygen >= 0 && oxygen <= 100)) {
    return problem(
      'values.oxygen',
      'bad-oxygen',
      `Oxygen is ${oxygen} %; it must be between 0 and ${mostOxygen} %.`,
    );
  }
  if (oxygen >= mostOxygen) {
    return problem(
      'values.oxygen',
      'too-diluted',
      `Oxygen is ${oxygen} %, nearly that of air (${oxygenInAir} %): the probe draws room air. ` +
        'Move the probe into the flue gas before any dilution air, then read again.',
    );
  }
  // The factor first: without oxygen it is exactly 1 and the measured value comes back unchanged.
  return computed(measured * (oxygenInAir / (oxygenInAir - oxygen)));
}
