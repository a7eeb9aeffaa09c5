import { plainNumber } from '../units/round.ts';
import type { WorkingLine } from '../working/worked.ts';
import type { BaselineSummary, DirectionFit, EnvelopeFit } from './types.ts';

/** The working of a test, in the order in which it is computed. Never throws. */
export function envelopeSteps(
  baseline: BaselineSummary,
  directions: readonly DirectionFit[],
  corrections: WorkingLine[],
  figures: EnvelopeFit['figures'],
): WorkingLine[] {
  const { before, after, mean } = baseline;
  const [only, second] = directions;
  const flow = second ? directions.map((fit) => law(fit, 50)).join(' and ') : only ? law(only, 50) : '';
  return [
    {
      label: 'Baseline taken off',
      working: after === null ? plainNumber(before) : `mean(${plainNumber(before)}, ${plainNumber(after)})`,
      value: mean,
      unit: 'Pa',
    },
    ...directions.flatMap(lineSteps),
    ...corrections,
    {
      label: figures.flowAt50.label,
      working: second ? `mean of ${flow}` : flow,
      value: figures.flowAt50.value,
      unit: 'cfm',
    },
    {
      label: 'Its 95 % interval',
      working: `${plainNumber(figures.flowAt50.value, 1)} × or ÷ exp(${plainNumber(figures.flowAt50.coverageFactor)} × ${inWords(figures.flowAt50.standardUncertainty / figures.flowAt50.value, 5)}): ${inWords(figures.flowAt50.low, 1)} to ${inWords(figures.flowAt50.high, 1)}`,
      value: figures.flowAt50.expandedUncertainty,
      unit: 'cfm',
    },
    ...[figures.effectiveLeakageArea, figures.equivalentLeakageArea].map(({ label, value, unit }, i) => ({
      label,
      working: `leakage at ${i === 0 ? 4 : 10} Pa × √(1.2041 / (2 × ${i === 0 ? '4)) / 1' : '10)) / 0.611'}`,
      value,
      unit,
    })),
    ...(figures.airChangesAt50
      ? [
          {
            label: figures.airChangesAt50.label,
            working: `${plainNumber(figures.flowAt50.value, 1)} × 60 / volume`,
            value: figures.airChangesAt50.value,
            unit: figures.airChangesAt50.unit,
          },
        ]
      : []),
  ];
}

// Three points that are no line leave an interval without end.
function inWords(value: number, decimals: number): string {
  return Number.isFinite(value) ? plainNumber(value, decimals) : 'without end';
}

function law({ coefficient, exponent }: DirectionFit, pressure: number): string {
  return `${plainNumber(coefficient)} × ${pressure}^${plainNumber(exponent)}`;
}

function lineSteps(fit: DirectionFit): WorkingLine[] {
  const name = `${fit.direction}d`;
  const working = `least squares of ln flow on ln pressure over ${fit.points.length} points`;
  const doubt = `${plainNumber(fit.studentFactor)} × ${plainNumber(fit.exponentUncertainty, 5)}`;
  return [
    { label: `Pressure exponent, ${name}`, working, value: fit.exponent, unit: '1' },
    { label: `± at 95 %`, working: doubt, value: fit.studentFactor * fit.exponentUncertainty, unit: '1' },
    { label: `Flow at 1 Pa, ${name}`, working, value: fit.coefficientAsRead, unit: 'cfm' },
    { label: `r², ${name}`, working, value: fit.rSquared, unit: '1' },
  ];
}
