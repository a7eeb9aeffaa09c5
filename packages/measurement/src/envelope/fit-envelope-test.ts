import { type Checked, computed, problem } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import type { WorkingLine } from '../working/worked.ts';
import { summariseBaseline } from './baseline.ts';
import { envelopeDensityCorrection } from './density-correction.ts';
import { byDirection } from './directions.ts';
import { baselineFindings, bothFindings, directionFindings } from './findings.ts';
import { envelopeFigures } from './figures.ts';
import { fitDirection } from './fit-direction.ts';
import { envelopeSteps } from './steps.ts';
import type { DirectionFit, EnvelopeFit, EnvelopeTest, TestAir } from './types.ts';

/**
 * A multi-point test of the envelope, depressurised, pressurised or both: baseline, power law Q = C · Pⁿ for each
 * direction with covariance and residuals, leakage at 50, 10, 4 Pa and the reference (cfm), leakage areas (in²), air
 * changes (1/h) and leakage per area, each with its 95 % interval, findings of validity, and the working.
 * With both directions each figure is the mean of the two. A finding never stops the computation; `valid` says
 * whether the named methods accept the test.
 *
 *     fitEnvelopeTest({
 *       baselineBefore: -1.2, baselineAfter: -0.8,
 *       points: [{ pressure: -61, flow: 1702 }, { pressure: -51.5, flow: 1541 }, …],
 *       volume: 20400,
 *     })
 *
 * Problems, each with its path: those of `summariseBaseline`, `byDirection` (`points.2.flow` …), `fitDirection` and
 * `envelopeDensityCorrection`; `bad-size` (volume or area not above zero), `bad-reference`, `bad-shared`. Never throws.
 * Source: as described of ISO 9972, ASTM E779 and E1827 in the sources of each part; one published house and
 * vectors computed independently (docs/sources.md, Measurement 1).
 */
export function fitEnvelopeTest(test: EnvelopeTest): Checked<EnvelopeFit> {
  const refusal = sizeProblem(test);
  if (refusal) return refusal;
  const baseline = summariseBaseline(test.baselineBefore, test.baselineAfter);
  if (!baseline.ok) return baseline;
  const sets = byDirection(test.points, baseline.value.mean);
  if (!sets.ok) return sets;
  const directions: DirectionFit[] = [];
  const corrections: WorkingLine[] = [];
  for (const set of sets.value) {
    const fit = fitDirection(set.direction, set.points, test.weighting ?? 'ordinary');
    if (!fit.ok) return fit;
    const corrected = withAir(fit.value, test.air);
    if (!corrected.ok) return corrected;
    directions.push(corrected.value.fit);
    corrections.push(...corrected.value.steps);
  }
  const figures = envelopeFigures(directions, test);
  const each = directions.map((fit) => envelopeFigures([fit], { ...test, reference: 50 }).flowAt50);
  const findings = [
    ...baselineFindings(baseline.value),
    ...directions.flatMap((fit) => directionFindings(fit, baseline.value)),
    ...bothFindings(each),
  ];
  return computed({
    baseline: baseline.value,
    directions,
    figures,
    findings,
    valid: findings.every(({ severity }) => severity !== 'invalid'),
    steps: envelopeSteps(baseline.value, directions, corrections, figures),
  });
}

function withAir(fit: DirectionFit, air?: TestAir): Checked<{ fit: DirectionFit; steps: WorkingLine[] }> {
  if (!air) return computed({ fit, steps: [] });
  const found = envelopeDensityCorrection(fit.direction, fit.exponent, air);
  if (!found.ok) return found;
  const factor = found.value.throughEnvelope * found.value.toStandard;
  return computed({
    fit: {
      ...fit,
      coefficient: fit.coefficient * factor,
      coefficientLow: fit.coefficientLow * factor,
      coefficientHigh: fit.coefficientHigh * factor,
    },
    steps: found.value.steps.map((step) => ({ ...step, label: `${step.label}, ${fit.direction}d` })),
  });
}

function sizeProblem(test: EnvelopeTest): ReturnType<typeof problem> | null {
  const sizes = { volume: test.volume, floorArea: test.floorArea, envelopeArea: test.envelopeArea };
  for (const [path, size] of Object.entries(sizes)) {
    if (size === undefined || (size > 0 && size < Infinity)) continue;
    return problem(path, 'bad-size', `The size is ${size}; it must be above zero, or left out.`);
  }
  const { reference = 50, shared = {} } = test;
  if (!(reference > 0 && reference < Infinity)) {
    const message = `The reference pressure is ${plainNumberOr(reference)} Pa; it must be above zero.`;
    return problem('reference', 'bad-reference', message);
  }
  if (Object.values(shared).every((part) => part >= 0 && part < 1)) return null;
  const message = 'Shared uncertainties are relative: 0.02 is 2 %. They lie from 0 to below 1.';
  return problem('shared', 'bad-shared', message);
}

function plainNumberOr(value: number): string {
  return Number.isFinite(value) ? plainNumber(value) : String(value);
}
