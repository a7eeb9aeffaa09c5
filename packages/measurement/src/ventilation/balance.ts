import type { Checked } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { aboveZero, firstProblem, statedUncertainties, type Uncertainties } from '../working/input.ts';
import { combined, gaveWorked, type Worked, worked } from '../working/worked.ts';

export interface Airstreams {
  /** outdoor air in and house air out, in one unit of flow, each above zero */
  supply: number;
  exhaust: number;
  uncertainties?: Uncertainties<'supply' | 'exhaust'>;
}

export interface Balance extends Worked<'%'> {
  /** supply − exhaust, in the unit of the flows: above zero pushes the house up */
  net: number;
  standardUncertaintyOfNet: number | null;
  /** the smaller of the two streams */
  smaller: 'supply' | 'exhaust' | 'equal';
}

/**
 * How far the two airstreams of a balanced ventilator are apart, %: (larger / smaller − 1) · 100. This is the
 * measure that the criterion `balanced-within` of rule sets limits.
 * Uncertainty when both are known; the two readings count as independent, which overstates it when one instrument
 * read both.
 * Problems: `not-above-zero` (a stream that does not flow has no ratio), `bad-uncertainty`. Never throws.
 * Source: common practice, no published source.
 */
export function airstreamBalance({ supply, exhaust, uncertainties }: Airstreams): Checked<Balance> {
  const wrong = firstProblem(
    aboveZero('supply', 'The supply flow', supply, ''),
    aboveZero('exhaust', 'The exhaust flow', exhaust, ''),
    statedUncertainties(uncertainties),
  );
  if (wrong) return wrong;
  const supplyIsSmaller = supply < exhaust;
  const [small, large] = supplyIsSmaller ? [supply, exhaust] : [exhaust, supply];
  const ofSmall = supplyIsSmaller ? uncertainties?.supply : uncertainties?.exhaust;
  const ofLarge = supplyIsSmaller ? uncertainties?.exhaust : uncertainties?.supply;
  const value = ((large - small) / small) * 100;
  const u = combined([
    [(100 * large) / small ** 2, ofSmall],
    [100 / small, ofLarge],
  ]);
  const working = `(${plainNumber(large)} − ${plainNumber(small)}) / ${plainNumber(small)} × 100`;
  const step = { label: 'Larger airstream beyond the smaller', working, value, unit: '%' };
  return gaveWorked(worked('%', value, u, [step]), {
    net: supply - exhaust,
    standardUncertaintyOfNet: combined([
      [1, uncertainties?.supply],
      [1, uncertainties?.exhaust],
    ]),
    smaller: supply === exhaust ? ('equal' as const) : supplyIsSmaller ? 'supply' : 'exhaust',
  });
}
