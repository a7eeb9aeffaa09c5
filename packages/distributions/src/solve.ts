/** The logarithm of a chance and its slope at one place. */
export interface LogChance {
  log: number;
  slope: number;
}

/**
 * Where the logarithm of a chance reaches `wanted`, by Newton's method. The logarithm must rise and be concave, as it
 * is for every log-concave distribution: a tangent then crosses left of the root, from where each step comes closer.
 * @param start any place where the chance is not nought
 * Never throws.
 */
export function whereLogIs(wanted: number, start: number, at: (place: number) => LogChance): number {
  let place = start;
  for (let turn = 0; turn < 200; turn++) {
    const { log, slope } = at(place);
    const step = (wanted - log) / slope;
    place += step;
    // The error of the next place is about the square of this step.
    if (!(Math.abs(step) > 1e-9 * (1 + Math.abs(place)))) break;
  }
  return place;
}
