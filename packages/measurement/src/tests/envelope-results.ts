import type { Entry } from '../entry/part.ts';
import { fitPowerLaw } from '../fit/power-law-fit.ts';
import { flowAtReference, type ReferenceTarget, remarkBeyondPa } from '../flow/flow-at-reference.ts';
import { powerLawFlow } from '../flow/power-law.ts';
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
  exponent: 0.65,
  lowestShare: 0.3,
  label: 'Leakage at 50 Pa',
};

/** Fits need at least five points: ISO 9972:2015, seen in an open textbook. */
export const fewestFitPoints = 5;

/** Exponents that an envelope can have: ASTM E779 and ISO 9972, seen on a checklist page and in an open textbook. */
export const exponentRange = { low: 0.5, high: 1 } as const;

/** Below this r² ISO 9972:2015 calls a test invalid (seen in an open textbook); here it is remarked on. */
export const leastRSquared = 0.98;

/**
 * Envelope leakage at 50 Pa (cfm) from one point: Q · (50 / P)^0.65.
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
  return gave(
    [
      measured(envelopeGives[0], flow, u === null ? null : u * factor),
      measured(envelopeGives[1], magnitude(point.pressure)),
    ],
    [...before, step],
    [...remarks, 'exponent 0.65 assumed', ...(remark === null ? [] : [remark])],
  );
}

/**
 * Envelope leakage at 50 Pa (cfm) from a power law fitted to five points or more: C · 50^n. Gives the exponent,
 * the flow coefficient and r² too. The uncertainty is the instrument's alone, not the scatter of the fit.
 * Problems: `exponent-out-of-range` (outside 0.5 to 1), `below-lowest-pressure` (no point reaches 15 Pa), and
 * those of `fitPowerLaw`. Never throws.
 */
export function fittedResult(
  entry: Entry,
  points: EnvelopePoint[],
  before: Step[],
  remarks: string[],
): TestOutcome {
  const found = fitPowerLaw(points);
  if (!found.ok) return refused(found.problem);
  const { coefficient, exponent, rSquared } = found.value;
  const { low, high } = exponentRange;
  // A noise-free sharp opening fits 0.5 only to the last binary digit.
  if (exponent < low - 1e-9 || exponent > high + 1e-9) {
    const message = `The points give an exponent of ${plainNumber(exponent)}; a house lies between ${low} and ${high}. Check the points, the ranges and the wind, then read again.`;
    return refused({ path: 'rows', code: 'exponent-out-of-range', message });
  }
  const highest = Math.max(...points.map(({ pressure }) => magnitude(pressure)));
  const lowest = envelopeTarget.reference * envelopeTarget.lowestShare;
  if (highest < lowest) {
    const message = `The highest pressure is ${plainNumber(highest)} Pa; below ${lowest} Pa nothing is taken to 50 Pa. Use a larger opening, then read again.`;
    return refused({ path: 'rows', code: 'below-lowest-pressure', message });
  }
  const flow = powerLawFlow(coefficient, exponent, envelopeTarget.reference);
  const working = `${plainNumber(coefficient)} × 50^${plainNumber(exponent)}`;
  return gave(
    [
      measured(envelopeGives[0], flow, standardUncertainty(entry.instrument, flow, 'airflow')),
      measured(envelopeGives[1], highest),
      measured(envelopeGives[2], exponent),
      measured(envelopeGives[3], coefficient),
      measured(envelopeGives[4], rSquared),
    ],
    [
      ...before,
      ...fitSteps(points.length, coefficient, exponent, rSquared),
      { label: envelopeTarget.label, working, value: flow, unit: 'cfm' },
    ],
    [...remarks, ...fitRemarks(highest, rSquared)],
  );
}

function fitSteps(count: number, coefficient: number, exponent: number, rSquared: number): Step[] {
  const working = `least squares of ln flow on ln pressure over ${count} points`;
  return [
    { label: 'Pressure exponent', working, value: exponent, unit: '1' },
    { label: 'Flow at 1 Pa', working, value: coefficient, unit: 'cfm' },
    { label: 'r²', working, value: rSquared, unit: '1' },
  ];
}

function fitRemarks(highest: number, rSquared: number): string[] {
  const remarks: string[] = [];
  if (highest < envelopeTarget.reference - remarkBeyondPa)
    remarks.push(`extrapolated from ${plainNumber(highest)} Pa`);
  if (rSquared < leastRSquared)
    remarks.push(`the points scatter: r² is ${plainNumber(rSquared, 4)}, below ${leastRSquared}`);
  return remarks;
}
