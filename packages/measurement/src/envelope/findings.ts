import { largestBaselinePa } from '../pressure/baseline.ts';
import { studentFactor } from '../uncertainty/coverage.ts';
import { plainNumber } from '../units/round.ts';
import type { BaselineSummary, DirectionFit, EnvelopeFigure, Finding } from './types.ts';

/** What a valid test keeps to. */
export const envelopeLimits = {
  exponent: { low: 0.5, high: 1 },
  rSquared: 0.98,
  points: 5,
  /** Pa: the highest point reaches this, and between points lies no more */
  highest: 50,
  step: 10,
  /** the lowest point lies at this many times the baseline, or at `lowest` Pa where that is more */
  timesBaseline: 5,
  lowest: 10,
  /** share of the lowest pressure that the baseline may drift */
  driftShare: 0.1,
} as const;

const iso = 'ISO 9972:2015, seen in an open textbook and on a checklist page';
const memory = 'ISO 9972:2015, from memory';
const practice = 'common practice, no published source';

type Found = Omit<Finding, 'direction' | 'point'> & { point?: number };

/** What is wrong with a baseline. Never throws. */
export function baselineFindings(baseline: BaselineSummary): Finding[] {
  const found: Found[] = [];
  for (const [when, pressure] of [
    ['before', baseline.before],
    ['after', baseline.after],
  ] as const) {
    if (pressure === null || Math.abs(pressure) <= largestBaselinePa) continue;
    const message = `The baseline ${when} is ${plainNumber(pressure)} Pa, more than ${largestBaselinePa} Pa: wind or stack effect. Test again on a calmer day.`;
    found.push({ code: 'baseline-too-windy', severity: 'invalid', message, source: iso });
  }
  if (baseline.after === null) {
    const message =
      'There is no baseline after the test, so a change of wind cannot be seen. Read it again with the fan covered.';
    found.push({ code: 'no-baseline-after', severity: 'remark', message, source: iso });
  }
  return found.map((each) => ({ point: null, ...each, direction: null }));
}

/**
 * What is wrong with the fit of one direction: exponent, r², count, range and steps of the points, the lowest point
 * against the baseline, drift, and points that do not belong. A point does not belong when its studentized
 * residual is larger than chance makes the largest of all points in one test of twenty. Never throws.
 */
export function directionFindings(fit: DirectionFit, baseline: BaselineSummary): Finding[] {
  const found = [
    ...lineFindings(fit),
    ...rangeFindings(fit),
    ...againstBaseline(fit, baseline),
    ...strayPoints(fit),
  ];
  return found.map((each) => ({ point: null, ...each, direction: fit.direction }));
}

/** Whether the two directions differ by more than their uncertainties allow. Never throws. */
export function bothFindings(flows: readonly EnvelopeFigure[]): Finding[] {
  const [out, into] = flows;
  if (!out || !into) return [];
  const allowed = Math.hypot(out.expandedUncertainty, into.expandedUncertainty);
  if (Math.abs(out.value - into.value) <= allowed) return [];
  const message = `The directions differ: ${plainNumber(out.value, 0)} cfm depressurised, ${plainNumber(into.value, 0)} cfm pressurised at 50 Pa. A damper or flap may open one way; the mean of both counts.`;
  return [
    {
      code: 'directions-differ',
      severity: 'remark',
      message,
      point: null,
      direction: null,
      source: practice,
    },
  ];
}

function lineFindings({ exponent, rSquared }: DirectionFit): Found[] {
  const { low, high } = envelopeLimits.exponent;
  const found: Found[] = [];
  // A noise-free sharp opening fits 0.5 only to the last binary digit.
  if (exponent < low - 1e-9 || exponent > high + 1e-9) {
    const message = `The points give an exponent of ${plainNumber(exponent)}; a house lies between ${low} and ${high}. Check the points, the ranges and the wind, then read again.`;
    found.push({ code: 'exponent-out-of-range', severity: 'invalid', message, source: iso });
  }
  if (rSquared < envelopeLimits.rSquared) {
    const message = `The points scatter: r² is ${plainNumber(rSquared, 4)}, below ${envelopeLimits.rSquared}. Read again when it is calmer.`;
    found.push({ code: 'low-r-squared', severity: 'invalid', message, source: iso });
  }
  return found;
}

function rangeFindings({ points, lowestPressure, highestPressure }: DirectionFit): Found[] {
  const found: Found[] = [];
  const pressures = [...new Set(points.map(({ pressure }) => pressure))].sort((a, b) => a - b);
  if (pressures.length < envelopeLimits.points) {
    const message = `There are ${pressures.length} different pressures; at least ${envelopeLimits.points} are asked.`;
    found.push({ code: 'too-few-points', severity: 'invalid', message, source: iso });
  }
  if (highestPressure < envelopeLimits.highest - 0.5) {
    const message = `The highest pressure is ${plainNumber(highestPressure)} Pa; the flow at ${envelopeLimits.highest} Pa is extrapolated. Use a larger opening of the fan if there is one.`;
    found.push({ code: 'highest-too-low', severity: 'remark', message, source: iso });
  }
  if (lowestPressure > envelopeLimits.highest / 2) {
    const message = `The lowest pressure is ${plainNumber(lowestPressure)} Pa; points down to about ${envelopeLimits.lowest} Pa make the exponent surer.`;
    found.push({ code: 'narrow-range', severity: 'remark', message, source: practice });
  }
  const step = Math.max(0, ...pressures.slice(1).map((pressure, i) => pressure - pressures[i]!));
  // Nobody sets a fan to the pascal; "about 10 Pa" is taken as up to 12.
  if (step > envelopeLimits.step * 1.2) {
    const message = `Two neighbouring points lie ${plainNumber(step)} Pa apart; about ${envelopeLimits.step} Pa is asked. Add a point between.`;
    found.push({ code: 'step-too-large', severity: 'remark', message, source: iso });
  }
  return found;
}

function againstBaseline({ lowestPressure, points }: DirectionFit, baseline: BaselineSummary): Found[] {
  const found: Found[] = [];
  const { timesBaseline, driftShare } = envelopeLimits;
  const lowestAllowed = timesBaseline * Math.max(Math.abs(baseline.before), Math.abs(baseline.after ?? 0));
  const lowest = points.find(({ pressure }) => pressure === lowestPressure)!;
  if (lowestPressure < lowestAllowed) {
    const message = `${lowest.label} at ${plainNumber(lowestPressure)} Pa is less than ${timesBaseline} times the baseline (${plainNumber(lowestAllowed)} Pa). Leave it out or read again when it is calmer.`;
    found.push({
      code: 'lowest-below-baseline',
      severity: 'invalid',
      message,
      point: lowest.index,
      source: memory,
    });
  }
  if (baseline.drift !== null && Math.abs(baseline.drift) > driftShare * lowestPressure) {
    const message = `The baseline drifted by ${plainNumber(baseline.drift)} Pa during the test, more than a tenth of the lowest pressure of ${plainNumber(lowestPressure)} Pa.`;
    found.push({ code: 'baseline-drift', severity: 'remark', message, source: practice });
  }
  return found;
}

function strayPoints({ points, degreesOfFreedom }: DirectionFit): Found[] {
  if (degreesOfFreedom < 2) return [];
  const largest = studentFactor(degreesOfFreedom - 1, 1 - 0.05 / points.length);
  return points
    .filter(({ studentized }) => Math.abs(studentized) > largest)
    .map(({ label, index, pressure, residual }) => {
      const away = `${plainNumber(Math.abs(Math.expm1(residual)) * 100, 1)} % ${residual > 0 ? 'above' : 'below'}`;
      const message = `${label} at ${plainNumber(pressure)} Pa lies ${away} the line of all points, more than chance explains. Check its range and reading, and read it again.`;
      return { code: 'stray-point', severity: 'remark', message, point: index, source: practice };
    });
}
