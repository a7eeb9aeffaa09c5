import type { Checked } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { type FigureSource, seen } from '../working/figure-source.ts';
import { firstProblem, statedUncertainties, zeroOrMore } from '../working/input.ts';
import { combined, gaveWorked, type Worked, worked } from '../working/worked.ts';

const source = seen(
  'NFPA 54 and IFGC, 50 ft³ for each 1,000 Btu/h, as at https://sws.nrel.gov/specification/10778/history',
);

/** Below this many air changes per hour a special rule replaces the volume, which is not computed here. */
export const leastAirChangesForVolumeRule = 0.4;

/**
 * The volume of room that appliances drawing their air indoors need, ft³: input / 1000 · 50, the sum over all.
 * @param inputs burner inputs of the appliances that share the space, Btu/h; none gives 0
 * @param airChanges known air changes per hour of the space, or null; below 0.40 the result remarks that the rule
 * does not hold
 * @param uncertainty standard uncertainty of the summed input, Btu/h; null when not known
 * Problems: `below-zero`, `bad-uncertainty`. Never throws. Source: see the result.
 */
export function combustionAirVolume(
  inputs: readonly number[],
  airChanges: number | null = null,
  uncertainty: number | null = null,
): Checked<Worked<'ft3'> & { source: FigureSource }> {
  const wrong = firstProblem(
    ...inputs.map((input, index) => zeroOrMore(`inputs.${index}`, 'The burner input', input, 'Btu/h')),
    airChanges === null ? null : zeroOrMore('airChanges', 'The air change rate', airChanges, '1/h'),
    statedUncertainties({ inputs: uncertainty }),
  );
  if (wrong) return wrong;
  const value = inputs.reduce((sum, input) => sum + input, 0) / 20;
  const working = `(${inputs.map((input) => plainNumber(input)).join(' + ') || '0'}) / 1000 × 50`;
  const tight = airChanges !== null && airChanges < leastAirChangesForVolumeRule;
  const remarks = tight
    ? ['below 0.40 air changes an hour the code has another rule; this volume does not hold']
    : [];
  const step = { label: 'Volume for combustion air', working, value, unit: 'ft3' };
  return gaveWorked(worked('ft3', value, combined([[1 / 20, uncertainty]]), [step], remarks), { source });
}
