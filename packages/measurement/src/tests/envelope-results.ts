import type { Entry } from '../entry/part.ts';
import { envelopeLimits } from '../envelope/findings.ts';
import { fitEnvelopeTest } from '../envelope/fit-envelope-test.ts';
import { assumedExponent } from '../envelope/one-point.ts';
import type { DirectionFit, EnvelopeFit } from '../envelope/types.ts';
import { flowAtReference, type ReferenceTarget, remarkBeyondPa } from '../flow/flow-at-reference.ts';
import { gave, refused } from '../outcome.ts';
import { magnitude } from '../pressure/signs.ts';
import type { Step, TestOutcome } from '../types.ts';
import { standardUncertainty } from '../uncertainty.ts';
import { plainNumber } from '../units/round.ts';
import type { EnvelopePoint } from './envelope-points.ts';
import { type Given, measured } from './measured.ts';

export const envelopeGives = [
  { key: 'flowAt50', label: 'Envelope leakage at 50 Pa', quantity: 'airflow' },
  { key: 'reachedPressure', label: 'Highest pressure used', quantity: 'pressureDifference' },
  { key: 'exponent', label: 'Pressure exponent', quantity: 'ratio' },
  { key: 'flowAt1', label: 'Flow coefficient (flow at 1 Pa)', quantity: 'airflow' },
  { key: 'rSquared', label: 'Fit (r²)', quantity: 'ratio' },
] as const satisfies Given[];

/**
 * One-point tests are taken to 50 Pa with the exponent 0.65 (seen in the documentation of an open building
 * model library; in ANSI/RESNET/ICC 380 from memory), and from 15 Pa at the lowest (from memory).
 */
export const envelopeTarget: ReferenceTarget = {
  reference: 50,
  exponent: assumedExponent.value,
  lowestShare: 0.3,
  label: 'Leakage at 50 Pa',
};

/** Fits need at least five points: ISO 9972:2015, seen in an open textbook. */
export const fewestFitPoints = envelopeLimits.points;

/**
 * The highest pressure of a fit over the lowest, at least: closer together, noise of one percent makes any exponent of
 * the points, and any flow at 50 Pa. Common practice, no published source; California asks for 25 to 50 Pa (seen).
 */
export const leastFitSpread = 1.5;

/** Exponents that an envelope can have: ASTM E779 and ISO 9972, seen on a checklist page and in an open textbook. */
export const exponentRange = envelopeLimits.exponent;

/** Below this r² ISO 9972:2015 calls a test invalid (seen in an open textbook); here it is remarked on. */
export const leastRSquared = envelopeLimits.rSquared;

/**
 * Envelope leakage at 50 Pa (cfm) from one point: Q · (50 / P)^0.65. The uncertainty is that of the fan's flow and of
 * the assumed exponent, |ln(50 / P)| · u(n).
 * Problems: those of `flowAtReference`. Never throws.
 */
export function onePointResult(
  entry: Entry,
  point: EnvelopePoint,
  before: Step[],
  remarks: string[],
): TestOutcome {
  const found = flowAtReference(point.flow, point.pressure, envelopeTarget);
  if (!found.ok) return refused({ ...found.problem, path: found.problem.path || point.path });
  const { flow, factor, step, remark } = found.value;
  const u = standardUncertainty(entry.instrument, point.flow, 'airflow');
  const byExponent =
    flow * Math.log(factor ** (1 / assumedExponent.value)) * assumedExponent.standardUncertainty;
  return gave(
    [
      measured(envelopeGives[0], flow, u === null ? null : Math.hypot(u * factor, byExponent)),
      measured(envelopeGives[1], magnitude(point.pressure)),
    ],
    [...before, step],
    [...remarks, 'exponent 0.65 assumed', ...(remark === null ? [] : [remark])],
  );
}

/**
 * Envelope leakage at 50 Pa (cfm) from power laws fitted to five points or more of each direction: C · 50^n, of both
 * directions the mean. Gives the exponent, the flow coefficient and r² too; of both directions mean, mean and the
 * lower. The uncertainty holds the scatter of the points and, where the instrument states one, its accuracy.
 * Problems: `exponent-out-of-range` (outside 0.5 to 1), `below-lowest-pressure` (no point reaches 15 Pa), and
 * those of `fitEnvelopeTest`. Never throws.
 */
export function fittedResult(
  entry: Entry,
  points: EnvelopePoint[],
  before: Step[],
  remarks: string[],
): TestOutcome {
  // The baseline is already off; its own findings are remarks of the test.
  const found = fitEnvelopeTest({ baselineBefore: 0, baselineAfter: 0, points });
  if (!found.ok) return refused({ ...found.problem, path: 'rows' });
  const { directions, figures, findings } = found.value;
  const wild = findings.find(({ code }) => code === 'exponent-out-of-range');
  if (wild) return refused({ path: 'rows', code: wild.code, message: wild.message });
  const highest = Math.max(...directions.map(({ highestPressure }) => highestPressure));
  const lowest = envelopeTarget.reference * envelopeTarget.lowestShare;
  if (highest < lowest) {
    const message = `The highest pressure is ${plainNumber(highest)} Pa; below ${lowest} Pa nothing is taken to 50 Pa. Use a larger opening, then read again.`;
    return refused({ path: 'rows', code: 'below-lowest-pressure', message });
  }
  const flow = figures.flowAt50.value;
  return gave(
    [
      leakageAt50(entry, found.value),
      measured(envelopeGives[1], highest),
      measured(
        envelopeGives[2],
        mean(directions, ({ exponent }) => exponent),
      ),
      measured(
        envelopeGives[3],
        mean(directions, ({ coefficient }) => coefficient),
      ),
      measured(envelopeGives[4], Math.min(...directions.map(({ rSquared }) => rSquared))),
    ],
    [
      ...before,
      ...directions.flatMap((fit) => fitSteps(fit, directions.length > 1)),
      {
        label: envelopeTarget.label,
        working: directions.map(law).join(' and, mean of both, '),
        value: flow,
        unit: 'cfm',
      },
    ],
    [...remarks, ...fitRemarks(highest, found.value)],
  );
}

// Without a stated accuracy the scatter alone is known, which is too little to state.
function leakageAt50(entry: Entry, { figures, directions }: EnvelopeFit) {
  const { value, standardUncertainty: scatter } = figures.flowAt50;
  const u = standardUncertainty(entry.instrument, value, 'airflow');
  if (u === null) return measured(envelopeGives[0], value);
  const free = directions.reduce((sum, { degreesOfFreedom }) => sum + degreesOfFreedom, 0);
  const total = Math.hypot(u, scatter);
  const effective = scatter === 0 ? Infinity : (total / scatter) ** 4 * free;
  return measured(envelopeGives[0], value, total, effective);
}

function mean(directions: DirectionFit[], of: (fit: DirectionFit) => number): number {
  return directions.reduce((sum, fit) => sum + of(fit), 0) / directions.length;
}

function law({ coefficient, exponent }: DirectionFit): string {
  return `${plainNumber(coefficient)} × 50^${plainNumber(exponent)}`;
}

function fitSteps(fit: DirectionFit, named: boolean): Step[] {
  const working = `least squares of ln flow on ln pressure over ${fit.points.length} points`;
  const label = (words: string) => (named ? `${words}, ${fit.direction}d` : words);
  return [
    { label: label('Pressure exponent'), working, value: fit.exponent, unit: '1' },
    { label: label('Flow at 1 Pa'), working, value: fit.coefficient, unit: 'cfm' },
    { label: label('r²'), working, value: fit.rSquared, unit: '1' },
  ];
}

// What the rater can act on at the house; the rest stands in the fit itself.
function fitRemarks(highest: number, { findings, directions }: EnvelopeFit): string[] {
  const remarks: string[] = [];
  if (highest < envelopeTarget.reference - remarkBeyondPa)
    remarks.push(`extrapolated from ${plainNumber(highest)} Pa`);
  for (const { rSquared } of directions) {
    if (rSquared < leastRSquared)
      remarks.push(`the points scatter: r² is ${plainNumber(rSquared, 4)}, below ${leastRSquared}`);
  }
  const more = ['stray-point', 'directions-differ'];
  return [...remarks, ...findings.filter(({ code }) => more.includes(code)).map(({ message }) => message)];
}
