import { type Checked, problem } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { seen } from '../working/figure-source.ts';
import { firstProblem, share } from '../working/input.ts';
import { combined, gaveWorked, type Worked, worked } from '../working/worked.ts';
import { type FlowOfForm, flowProblem, flowUnits, type VentilationFlow } from './form.ts';

/** IRC Table M1505.4.3(2): share of each four-hour segment in which the fan runs, and the factor on its rate. */
export const intermittentFactors = {
  rows: [
    { runShare: 0.25, factor: 4 },
    { runShare: 0.33, factor: 3 },
    { runShare: 0.5, factor: 2 },
    { runShare: 0.66, factor: 1.5 },
    { runShare: 0.75, factor: 1.3 },
    { runShare: 1, factor: 1 },
  ],
  source: seen(
    'IRC Table M1505.4.3(2), as quoted at https://up.codes/s/whole-house-mechanical-ventilation-system',
  ),
} as const;

/**
 * The factor by which a fan that does not run all the time has to be larger, dimensionless, from IRC Table
 * M1505.4.3(2). Between two rows it is interpolated along a straight line, which the result remarks on (that
 * the code permits it is from memory); below 25 % nothing is given.
 * @param runShare share of each four-hour segment in which the fan runs, above 0 to 1
 * Problems: `bad-share`, `below-table`. Never throws. Source: see `intermittentFactors`.
 */
export function intermittentFactor(runShare: number): Checked<Worked<'1'>> {
  const wrong = firstProblem(share('runShare', 'The share of the time in which the fan runs', runShare));
  if (wrong) return wrong;
  const { rows } = intermittentFactors;
  const above = rows.findIndex((row) => runShare <= row.runShare);
  const [high, low] = [rows[above], rows[above - 1]];
  if (!high || (!low && runShare < high.runShare)) {
    return problem(
      'runShare',
      'below-table',
      `The fan runs ${plainNumber(runShare * 100)} % of the time; the table starts at 25 % of each four hours.`,
    );
  }
  const found = between(runShare, low ?? high, high);
  const steps = [{ label: 'Factor for intermittent operation', ...found.step, unit: '1' }];
  return gaveWorked(worked('1', found.step.value, null, steps, found.remarks), {});
}

/**
 * The flow that a whole-house fan needs while it runs, in the form and unit of the continuous rate:
 * Q = rate × factor, with the factor of `intermittentFactor`.
 * @param rate a flow of either form, e.g. the result of `requiredRateInchPound`
 * Problems: as `intermittentFactor`, and `not-above-zero`, `bad-uncertainty`. Never throws.
 */
export function intermittentRate(rate: FlowOfForm, runShare: number): Checked<VentilationFlow> {
  const wrong = flowProblem('rate', 'The continuous rate', rate);
  if (wrong) return wrong;
  const factor = intermittentFactor(runShare);
  if (!factor.ok) return factor;
  const unit = flowUnits[rate.form];
  const value = rate.value * factor.value.value;
  const working = `${plainNumber(rate.value)} × ${plainNumber(factor.value.value)}`;
  const u = combined([[factor.value.value, rate.standardUncertainty]]);
  const steps = [...factor.value.steps, { label: 'Flow while running', working, value, unit }];
  return gaveWorked(worked(unit, value, u, steps, factor.value.remarks), {
    form: rate.form,
    equation: `IRC Table M1505.4.3(2) (${rate.form})`,
  });
}

interface Row {
  runShare: number;
  factor: number;
}

function between(runShare: number, low: Row, high: Row) {
  if (low === high || runShare === high.runShare) {
    return { step: { working: `row of ${percent(high)} %`, value: high.factor }, remarks: [] };
  }
  const along = (runShare - low.runShare) / (high.runShare - low.runShare);
  const value = low.factor + along * (high.factor - low.factor);
  const working = `${low.factor} + ${plainNumber(along)} × (${high.factor} − ${low.factor})`;
  return {
    step: { working, value },
    remarks: [`interpolated between the rows of ${percent(low)} and ${percent(high)} %`],
  };
}

function percent({ runShare }: Row): string {
  return plainNumber(runShare * 100);
}
