import { globalRisk, studentFactor } from '@countercheck/measurement';
import { figures } from '../run/figures.ts';
import type { Driver } from './index.ts';

/** False acceptance when a share of all things lies within ±1 and the measurement spreads `ratio` times less. */
const toleranceRisk: Driver = ({ inTolerance, ratio }) => {
  const standardDeviation = 1 / studentFactor(Infinity, Number(inTolerance));
  const found = figures(
    globalRisk({
      prior: { mean: 0, standardDeviation },
      standardUncertainty: standardDeviation / Number(ratio),
      low: -1,
      high: 1,
    }),
  );
  return {
    acceptedPercent: 100 * Number(found['consumer']),
    conditionalPercent: 100 * Number(found['acceptedWrongly']),
  };
};

export const risks = { toleranceRisk };
