import type { LinePoint } from '../fit/line.ts';

/** NIST StRD "Norris" (public domain), y then x, as in the file of a numerical library's tests (seen). */
const norrisPairs = [
  0.1, 0.2, 338.8, 337.4, 118.1, 118.2, 888.0, 884.6, 9.2, 10.1, 228.1, 226.5, 668.5, 666.3, 998.5, 996.3,
  449.1, 448.6, 778.9, 777.0, 559.2, 558.2, 0.3, 0.4, 0.1, 0.6, 778.1, 775.5, 668.8, 666.9, 339.3, 338.0,
  448.9, 447.5, 10.8, 11.6, 557.7, 556.0, 228.3, 228.1, 998.0, 995.8, 888.8, 887.6, 119.6, 120.2, 0.3, 0.3,
  0.6, 0.3, 557.6, 556.8, 339.3, 339.1, 888.0, 887.2, 998.5, 999.0, 778.9, 779.0, 10.2, 11.1, 117.6, 118.3,
  228.9, 229.2, 668.4, 669.1, 449.2, 448.9, 0.2, 0.5,
];

export const norris: LinePoint[] = pairs(norrisPairs);

/** Thermometer calibration of GUM H.3 (seen in two public test suites): temperature, correction at 20 °C apart. */
const temperatures = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
const corrections = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];

export const gumH3: LinePoint[] = temperatures.map((t, i) => ({ x: t - 20, y: corrections[i] ?? NaN }));

/** Envelope test of an open textbook (seen): Pa and m³/h. */
export const textbookHouse = [
  { pressure: 10, flow: 237 },
  { pressure: 20, flow: 364 },
  { pressure: 30, flow: 444 },
  { pressure: 40, flow: 625 },
  { pressure: 50, flow: 688 },
  { pressure: 60, flow: 704 },
];

/** Invented noisy house with results computed independently: Pa and cfm. */
export const noisyHouse = [
  { pressure: 60, flow: 1702 },
  { pressure: 50.5, flow: 1541 },
  { pressure: 41, flow: 1327 },
  { pressure: 35.5, flow: 1229 },
  { pressure: 30, flow: 1089 },
  { pressure: 24.5, flow: 966 },
  { pressure: 20, flow: 834 },
  { pressure: 15.5, flow: 717 },
];

function pairs(flat: number[]): LinePoint[] {
  const points: LinePoint[] = [];
  for (let i = 0; i < flat.length; i += 2) points.push({ y: flat[i] ?? NaN, x: flat[i + 1] ?? NaN });
  return points;
}
