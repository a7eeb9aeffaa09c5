/** Above it water is liquid, °C: the triple point, where the two formulas meet. */
const triplePoint = 0.01;

/**
 * Pressure of saturated water vapour, Pa, over ice below 0.01 °C and over water above.
 * @param celsius −100 to 200 °C; outside, or for no number, NaN
 * Formula: ln p as a polynomial of the absolute temperature. Source: ASHRAE Handbook Fundamentals 2017, chapter 1,
 * equations 5 and 6, seen in the source of an open psychrometric library. Never throws.
 */
export function saturationPressure(celsius: number): number {
  if (!(celsius >= -100 && celsius <= 200)) return NaN;
  const t = celsius + 273.15;
  const ln =
    celsius <= triplePoint
      ? -5674.5359 / t +
        6.3925247 -
        9.677843e-3 * t +
        6.2215701e-7 * t ** 2 +
        2.0747825e-9 * t ** 3 -
        9.484024e-13 * t ** 4 +
        4.1635019 * Math.log(t)
      : -5800.2206 / t +
        1.3914993 -
        4.8640239e-2 * t +
        4.1764768e-5 * t ** 2 -
        1.4452093e-8 * t ** 3 +
        6.5459673 * Math.log(t);
  return Math.exp(ln);
}
