import { type Checked, computed, problem } from '../outcome.ts';
import { coverageFactor, studentFactor } from '../uncertainty/coverage.ts';
import { areaPerFlow, leakageAreaForms } from './leakage-area.ts';
import type { DirectionFit, EnvelopeFigure, EnvelopeFit, EnvelopeTest } from './types.ts';

type Shared = NonNullable<EnvelopeTest['shared']>;

/**
 * Leakage at any pressure with its 95 % interval, cfm: C · P^n, of one direction or the mean of both. The interval
 * comes from the scatter of the points, S(x)² = s² · (1/W + (ln P − x̄)² / Sxx), and from what all points share;
 * with nothing shared it is Q · exp(± t · S). Directions are independent but for what they share; the degrees of
 * freedom follow Welch and Satterthwaite.
 * @param pressure Pa, above zero
 * @param shared relative standard uncertainties as in `EnvelopeTest`
 * Problems: `bad-pressure`, `no-direction`. Never throws. Source: ASTM E779 annex A1 and ISO 9972 annex C (from
 * memory), same as least squares; vectors computed independently (docs/sources.md, Measurement 1).
 */
export function envelopeFlowAt(
  directions: readonly DirectionFit[],
  pressure: number,
  shared: Shared = {},
): Checked<EnvelopeFigure> {
  if (!(pressure > 0 && pressure < Infinity))
    return problem('pressure', 'bad-pressure', `The pressure is ${pressure} Pa; it must be above zero.`);
  if (directions.length === 0) return problem('directions', 'no-direction', 'There is no fit.');
  return computed(flowFigure('flow', `Leakage at ${pressure} Pa`, directions, pressure, shared));
}

/** All figures of a test. Sizes are those of `EnvelopeTest`; a figure whose size was not given is left out. */
export function envelopeFigures(
  directions: readonly DirectionFit[],
  test: Pick<EnvelopeTest, 'reference' | 'volume' | 'floorArea' | 'envelopeArea' | 'shared'>,
): EnvelopeFit['figures'] {
  const { reference = 50, volume, floorArea, envelopeArea, shared = {} } = test;
  const flow = (key: string, pressure: number) =>
    flowFigure(key, `Leakage at ${pressure} Pa`, directions, pressure, shared);
  const [at50, at10, at4] = [flow('flowAt50', 50), flow('flowAt10', 10), flow('flowAt4', 4)];
  const area = (key: string, label: string, from: EnvelopeFigure, form: keyof typeof leakageAreaForms) =>
    scaled(
      from,
      key,
      label,
      'in2',
      areaPerFlow(leakageAreaForms[form].pressure) / leakageAreaForms[form].dischargeCoefficient,
    );
  // What is divided by a measured size shares the doubt of that size.
  const sized = shared.size
    ? flowFigure('flowAt50', '', directions, 50, {
        ...shared,
        flow: Math.hypot(shared.flow ?? 0, shared.size),
      })
    : at50;
  return {
    flowAt50: at50,
    flowAtReference: flow('flowAtReference', reference),
    flowAt10: at10,
    flowAt4: at4,
    effectiveLeakageArea: area('effectiveLeakageArea', 'Effective leakage area at 4 Pa', at4, 'effective'),
    equivalentLeakageArea: area(
      'equivalentLeakageArea',
      'Equivalent leakage area at 10 Pa, Cd 0.611',
      at10,
      'equivalent',
    ),
    leakageAreaAt10: area('leakageAreaAt10', 'Leakage area at 10 Pa, Cd 1', at10, 'at10'),
    ...(volume && {
      airChangesAt50: scaled(sized, 'airChangesAt50', 'Air changes at 50 Pa', '1/h', 60 / volume),
    }),
    ...(floorArea && {
      perFloorArea: scaled(
        sized,
        'perFloorArea',
        'Leakage at 50 Pa per floor area',
        'cfm/100ft2',
        100 / floorArea,
      ),
    }),
    ...(envelopeArea && {
      perEnvelopeArea: scaled(
        sized,
        'perEnvelopeArea',
        'Leakage at 50 Pa per envelope area',
        'cfm/ft2',
        1 / envelopeArea,
      ),
    }),
  };
}

function flowFigure(
  key: string,
  label: string,
  directions: readonly DirectionFit[],
  pressure: number,
  shared: Shared,
): EnvelopeFigure {
  const x = Math.log(pressure);
  const parts = directions.map((fit) => {
    const flow = fit.coefficient * pressure ** fit.exponent;
    const away = (x - fit.meanLogPressure) ** 2 / fit.spread;
    const variance = (flow * fit.residualDeviation) ** 2 * (1 / fit.weight + away);
    return { flow, variance, fit };
  });
  const count = parts.length;
  const value = parts.reduce((sum, { flow }) => sum + flow, 0) / count;
  const scatter = parts.reduce((sum, { variance }) => sum + variance, 0) / (count * value) ** 2;
  const loss =
    parts.reduce((sum, { variance, fit }) => sum + variance ** 2 / fit.degreesOfFreedom, 0) /
    (count * value) ** 4;
  const exponent = parts.reduce((sum, { fit, flow }) => sum + fit.exponent * flow, 0) / (count * value);
  const common = (shared.flow ?? 0) ** 2 + (exponent * (shared.pressure ?? 0)) ** 2;
  const relative = Math.sqrt(scatter + common);
  const fewest = Math.min(...directions.map(({ degreesOfFreedom }) => degreesOfFreedom));
  const free = loss > 0 ? (scatter + common) ** 2 / loss : common > 0 ? Infinity : fewest;
  // One direction with nothing shared has whole degrees of freedom; rounding must not cut one off.
  const whole = Math.floor(free + 1e-6);
  const k = common > 0 ? coverageFactor(whole) : studentFactor(whole);
  const factor = Math.exp(k * relative);
  return {
    key,
    label,
    value,
    unit: 'cfm',
    standardUncertainty: relative * value,
    expandedUncertainty: k * relative * value,
    coverageFactor: k,
    low: value / factor,
    high: value * factor,
    extrapolated: directions.some((fit) => pressure < fit.lowestPressure || pressure > fit.highestPressure),
  };
}

function scaled(
  from: EnvelopeFigure,
  key: string,
  label: string,
  unit: EnvelopeFigure['unit'],
  by: number,
): EnvelopeFigure {
  return {
    ...from,
    key,
    label,
    unit,
    value: from.value * by,
    standardUncertainty: from.standardUncertainty * by,
    expandedUncertainty: from.expandedUncertainty * by,
    low: from.low * by,
    high: from.high * by,
  };
}
