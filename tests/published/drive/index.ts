import { airs } from './air.ts';
import { circuits } from './circuit.ts';
import { envelopes } from './envelope.ts';
import { fits } from './fits.ts';
import { gaugeBlocks } from './gauge-block.ts';
import { risks } from './risk.ts';
import { solutions } from './standard-solution.ts';
import { units } from './units.ts';
import { ventilations } from './ventilation.ts';
import { verdicts } from './verdict.ts';

/** Checks of what is no single function: each takes the given values by name and lays out named figures. */
export type Driver = (given: Record<string, unknown>) => Record<string, unknown>;

export const drivers: Record<string, Driver> = {
  ...airs,
  ...circuits,
  ...envelopes,
  ...fits,
  ...gaugeBlocks,
  ...risks,
  ...solutions,
  ...units,
  ...ventilations,
  ...verdicts,
};
