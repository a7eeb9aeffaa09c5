import { type Checked, computed, problem } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import {
  aboveZero,
  firstProblem,
  statedUncertainties,
  type Uncertainties,
  zeroOrMore,
} from '../working/input.ts';
import { combined, worked, type Worked } from '../working/worked.ts';
import { type FlowPart, sumFlows } from './sum.ts';

export interface HouseDucts {
  /** of all systems together, cfm at 25 Pa */
  total: Worked<'cfm'>;
  /** per 100 ft² of the house's conditioned floor; null without a floor area */
  perFloorArea: Worked<'cfm/100ft2'> | null;
}

/**
 * Duct leakage of a house with several systems: the sum of their leakages, each brought to 25 Pa already, and per
 * 100 ft² of the whole house's floor. Readings with one instrument share its error (`by-instrument` in `sumFlows`).
 * All of one kind: total leakages, or leakages to outdoors, never mixed.
 * @param systems cfm at 25 Pa with standard uncertainty and instrument @param floorArea ft², or null
 * Problems: `no-systems`, `below-zero`, `not-above-zero`, `bad-uncertainty`. Never throws.
 * Source: common practice, no published source; 123 cfm over 2,400 ft² from the example file of the public data
 * format (docs/sources.md, Measurement 4).
 */
export function houseDuctLeakage(
  systems: readonly FlowPart[],
  floorArea: number | null,
): Checked<HouseDucts> {
  if (systems.length === 0) return problem('systems', 'no-systems', 'No duct system was given.');
  const refusal = firstProblem(
    ...systems.flatMap(({ label, flow, standardUncertainty }, i) => [
      zeroOrMore(`systems.${i}.flow`, `The leakage of ${label}`, flow, 'cfm'),
      statedUncertainties({ [label]: standardUncertainty }),
    ]),
  );
  if (refusal) return refusal;
  const { flow, standardUncertainty, step } = sumFlows(
    [...systems],
    'by-instrument',
    'All ducts of the house',
  );
  const total = worked('cfm', flow, standardUncertainty, [step]);
  if (floorArea === null) return computed({ total, perFloorArea: null });
  const rate = ductLeakagePerFloorArea(
    { leakage: flow, floorArea },
    { leakage: standardUncertainty, floorArea: 0 },
  );
  return rate.ok ? computed({ total, perFloorArea: rate.value }) : rate;
}

/**
 * Duct leakage per 100 ft² of conditioned floor: Q · 100 / A.
 * @param input leakage cfm, floorArea ft² @param uncertainties standard, of both; 0 for an area taken as exact
 * Problems: `below-zero`, `not-above-zero`, `bad-uncertainty`. Never throws. Source: as `cfmPer100ft2`.
 */
export function ductLeakagePerFloorArea(
  { leakage, floorArea }: { leakage: number; floorArea: number },
  uncertainties: Uncertainties<'leakage' | 'floorArea'> = {},
): Checked<Worked<'cfm/100ft2'>> {
  const refusal = firstProblem(
    zeroOrMore('leakage', 'The leakage', leakage, 'cfm'),
    aboveZero('floorArea', 'The floor area', floorArea, 'ft²'),
    statedUncertainties(uncertainties),
  );
  if (refusal) return refusal;
  const value = (leakage * 100) / floorArea;
  const u = combined([
    [100 / floorArea, uncertainties.leakage],
    [value / floorArea, uncertainties.floorArea],
  ]);
  const working = `${plainNumber(leakage)} × 100 / ${plainNumber(floorArea)}`;
  return computed(
    worked('cfm/100ft2', value, u, [{ label: 'Leakage per 100 ft²', working, value, unit: 'cfm/100ft2' }]),
  );
}

/**
 * Duct leakage as a share of what the air handler moves, %: 100 · Q_leak / Q_fan.
 * @param input leakage at 25 Pa and fan airflow, both cfm @param uncertainties standard, of both, cfm
 * Problems: `below-zero`, `not-above-zero`, `bad-uncertainty`. Never throws. Source: California RA3 2008, table
 * RA3.1-2, states its limits so (seen, docs/sources.md, Measurement 10).
 */
export function ductLeakageShare(
  { leakage, airflow }: { leakage: number; airflow: number },
  uncertainties: Uncertainties<'leakage' | 'airflow'> = {},
): Checked<Worked<'%'>> {
  const refusal = firstProblem(
    zeroOrMore('leakage', 'The leakage', leakage, 'cfm'),
    aboveZero('airflow', 'The airflow', airflow, 'cfm'),
    statedUncertainties(uncertainties),
  );
  if (refusal) return refusal;
  const value = (100 * leakage) / airflow;
  const u = combined([
    [100 / airflow, uncertainties.leakage],
    [value / airflow, uncertainties.airflow],
  ]);
  const working = `100 × ${plainNumber(leakage)} / ${plainNumber(airflow)}`;
  return computed(worked('%', value, u, [{ label: 'Share of the airflow', working, value, unit: '%' }]));
}

/**
 * Duct leakage into the house's own rooms, cfm at 25 Pa: total less to outdoors. Less than zero within the expanded
 * uncertainty of the difference becomes zero with a remark; further below it, one of the two was read wrongly.
 * @param input both at 25 Pa, cfm @param uncertainties standard, of both, cfm; unknown ones count as zero in the check
 * Problems: `below-zero`, `outdoors-above-total`, `bad-uncertainty`. Never throws. Source: what leaks outdoors is part
 * of the total.
 */
export function ductLeakageIndoors(
  { total, outdoors }: { total: number; outdoors: number },
  uncertainties: Uncertainties<'total' | 'outdoors'> = {},
): Checked<Worked<'cfm'>> {
  const refusal = firstProblem(
    zeroOrMore('total', 'The total leakage', total, 'cfm'),
    zeroOrMore('outdoors', 'The leakage to outdoors', outdoors, 'cfm'),
    statedUncertainties(uncertainties),
  );
  if (refusal) return refusal;
  const u = combined([
    [1, uncertainties.total],
    [1, uncertainties.outdoors],
  ]);
  const difference = total - outdoors;
  const doubt = 2 * Math.hypot(uncertainties.total ?? 0, uncertainties.outdoors ?? 0);
  const [all, out] = [plainNumber(total), plainNumber(outdoors)];
  if (difference < -doubt) {
    const message = `${out} cfm leak outdoors, more than the ${all} cfm that leak altogether. One of the two was read wrongly; read both again.`;
    return problem('outdoors', 'outdoors-above-total', message);
  }
  const value = Math.max(0, difference);
  const remarks =
    difference < 0 ? ['within the uncertainty, all of the leakage goes outdoors; zero is stated'] : [];
  const working = difference < 0 ? `${all} − ${out}, stated as zero` : `${all} − ${out}`;
  const steps = [{ label: 'Leakage into the house', working, value, unit: 'cfm' }];
  return computed(worked('cfm', value, u, steps, remarks));
}
