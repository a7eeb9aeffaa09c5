import { propagate, type UncertainInput } from '@countercheck/measurement';
import { figures } from '../run/figures.ts';
import type { Driver } from './index.ts';

type Readings = readonly number[];

const quantities = {
  resistance: ([v = 0, i = 0, phase = 0]: Readings) => (v / i) * Math.cos(phase),
  reactance: ([v = 0, i = 0, phase = 0]: Readings) => (v / i) * Math.sin(phase),
  impedance: ([v = 0, i = 0]: Readings) => v / i,
};

/** The guide's circuit: three results from three correlated readings. */
const circuit: Driver = ({ voltage, current, phase, correlation }) => {
  const inputs = [voltage, current, phase] as UncertainInput[];
  const results = Object.entries(quantities).flatMap(([name, fn]) => {
    const found = figures(propagate(fn, inputs, correlation as number[][]));
    return [
      [name, found['value']],
      [`${name}Uncertainty`, found['standardUncertainty']],
    ];
  });
  return Object.fromEntries(results) as Record<string, unknown>;
};

export const circuits = { circuit };
