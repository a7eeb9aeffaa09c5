/**
 * Every unit that the service converts, as a factor (and for temperatures an offset) to one base unit of its
 * dimension: base = value × factor + offset.
 *
 * Sources: foot = 0.3048 m, inch = 25.4 mm, pound = 0.45359237 kg and the Fahrenheit scale are exact by definition (international
 * yard and pound agreement 1959; from memory). Inch of water column = 249.08891 Pa with water at 4 °C
 * (computed independently).
 */
const foot = 0.3048;
const inch = 0.0254;
const cubicFoot = foot ** 3;
const pound = 0.45359237;
const cfm = cubicFoot / 60;

export const unitTable = {
  Pa: { dimension: 'pressure', factor: 1, offset: 0 },
  inH2O: { dimension: 'pressure', factor: 249.08891, offset: 0 },
  cfm: { dimension: 'airflow', factor: cfm, offset: 0 },
  'L/s': { dimension: 'airflow', factor: 0.001, offset: 0 },
  'm3/h': { dimension: 'airflow', factor: 1 / 3600, offset: 0 },
  ft2: { dimension: 'area', factor: foot ** 2, offset: 0 },
  m2: { dimension: 'area', factor: 1, offset: 0 },
  in2: { dimension: 'area', factor: inch ** 2, offset: 0 },
  cm2: { dimension: 'area', factor: 1e-4, offset: 0 },
  ft3: { dimension: 'volume', factor: cubicFoot, offset: 0 },
  m3: { dimension: 'volume', factor: 1, offset: 0 },
  in: { dimension: 'length', factor: inch, offset: 0 },
  mm: { dimension: 'length', factor: 0.001, offset: 0 },
  ft: { dimension: 'length', factor: foot, offset: 0 },
  m: { dimension: 'length', factor: 1, offset: 0 },
  '1/h': { dimension: 'rate', factor: 1, offset: 0 },
  'cfm/100ft2': { dimension: 'flow per area', factor: cfm / (100 * foot ** 2), offset: 0 },
  'L/s/10m2': { dimension: 'flow per area', factor: 0.0001, offset: 0 },
  'in2/cfm': { dimension: 'area per flow', factor: inch ** 2 / cfm, offset: 0 },
  'cm2/(L/s)': { dimension: 'area per flow', factor: 0.1, offset: 0 },
  ppm: { dimension: 'concentration', factor: 1, offset: 0 },
  degF: { dimension: 'temperature', factor: 5 / 9, offset: (-32 * 5) / 9 },
  degC: { dimension: 'temperature', factor: 1, offset: 0 },
  s: { dimension: 'time', factor: 1, offset: 0 },
  W: { dimension: 'power', factor: 1, offset: 0 },
  'kg/m3': { dimension: 'density', factor: 1, offset: 0 },
  'lb/ft3': { dimension: 'density', factor: pound / cubicFoot, offset: 0 },
  'kg/s': { dimension: 'mass flow', factor: 1, offset: 0 },
  '%': { dimension: 'share', factor: 1, offset: 0 },
  '1': { dimension: 'number', factor: 1, offset: 0 },
} as const;

export type ConvertibleUnit = keyof typeof unitTable;
