import { fromHalfWidth, propagate, studentFactor, type UncertainInput } from '@countercheck/measurement';
import { figures } from '../run/figures.ts';
import type { Driver } from './index.ts';

const names = ['ls', 'd0', 'd1', 'd2', 'alphaS', 'dAlpha', 'dTheta', 'thetaBar', 'cycle'] as const;

// GUM H.1: nm, °C and 1/°C; the widths of rectangular and arcsine distributions as the example gives them.
const inputs: UncertainInput[] = [
  { value: 50_000_623, u: 25, df: 18 },
  { value: 215, u: 5.8, df: 24 },
  { value: 0, u: 3.9, df: 5 },
  { value: 0, u: 6.7, df: 8 },
  { value: 11.5e-6, u: fromHalfWidth(2e-6, 'rectangular') },
  { value: 0, u: fromHalfWidth(1e-6, 'rectangular'), df: 50 },
  { value: 0, u: fromHalfWidth(0.05, 'rectangular'), df: 2 },
  { value: -0.1, u: 0.2 },
  { value: 0, u: fromHalfWidth(0.5, 'arcsine') },
];

function length(values: readonly number[]): number {
  const [ls = 0, d0 = 0, d1 = 0, d2 = 0, alphaS = 0, dAlpha = 0, dTheta = 0, thetaBar = 0, cycle = 0] =
    values;
  return ls + d0 + d1 + d2 - ls * (dAlpha * (thetaBar + cycle) + alphaS * dTheta);
}

/** The guide's gauge block: length, uncertainty and what each quantity adds. */
const gaugeBlock: Driver = () => {
  const found = propagate(length, inputs);
  if (!found.ok) return figures(found);
  const { degreesOfFreedom, standardUncertainty, budget } = found.value;
  return {
    ...found.value,
    contributions: Object.fromEntries(names.map((name, i) => [name, budget[i]?.contribution])),
    expandedAt99: studentFactor(Math.floor(degreesOfFreedom), 0.99) * standardUncertainty,
  };
};

export const gaugeBlocks = { gaugeBlock };
