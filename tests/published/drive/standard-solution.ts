import { fromHalfWidth, propagate } from '@countercheck/measurement';
import { figures } from '../run/figures.ts';
import type { Driver } from './index.ts';

const names = ['mass', 'purity', 'flask', 'repeatability', 'temperature'] as const;

// The example's own figures: mg, a mass fraction, and mL; rectangular and triangular widths.
const inputs = [
  { value: 100.28, u: 0.05 },
  { value: 0.9999, u: fromHalfWidth(0.0001, 'rectangular') },
  { value: 100, u: fromHalfWidth(0.1, 'triangular') },
  { value: 0, u: 0.02 },
  { value: 0, u: fromHalfWidth(0.084, 'rectangular') },
];

/** The guide's calibration standard: mg/L from mass, purity and a volume of three parts. */
const standardSolution: Driver = () => {
  const found = propagate(([mass = 0, purity = 0, ...volume]) => {
    const [flask = 0, repeatability = 0, temperature = 0] = volume;
    return (1000 * mass * purity) / (flask + repeatability + temperature);
  }, inputs);
  if (!found.ok) return figures(found);
  const { budget } = found.value;
  return {
    ...found.value,
    contributions: Object.fromEntries(names.map((name, i) => [name, budget[i]?.contribution])),
  };
};

export const solutions = { standardSolution };
