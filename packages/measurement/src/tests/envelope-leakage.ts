import { defineTest } from '../entry/define-test.ts';
import type { Entry } from '../entry/part.ts';
import { refused } from '../outcome.ts';
import { envelopeLimits } from '../envelope/findings.ts';
import { largestBaselinePa } from '../pressure/baseline.ts';
import { magnitude } from '../pressure/signs.ts';
import type { FieldDefinition, Problem, TestOutcome } from '../types.ts';
import { plainNumber } from '../units/round.ts';
import {
  baselinesOf,
  differentPressures,
  directionsOf,
  type EnvelopePoint,
  envelopePoints,
  spreadOf,
} from './envelope-points.ts';
import {
  envelopeGives,
  envelopeTarget,
  fewestFitPoints,
  fittedResult,
  leastFitSpread,
  onePointResult,
} from './envelope-results.ts';
import { fanFields, rangeChoice } from './fan-flow.ts';

/**
 * Leakage of the house's envelope (cfm at 50 Pa), pressurised, depressurised or the mean of both. One point, or five
 * and more at different pressures of each direction for a fit; of two to four the one nearest 50 Pa counts. Gives `flowAt50` and
 * `reachedPressure`, a fit also `exponent`, `flowAt1` and `rSquared`. Air changes need the volume:
 * `airChangesPerHour`.
 */
export const envelopeLeakage = defineTest({
  key: 'envelope-leakage',
  how: 'With outside doors and windows closed and inside doors open, read the house’s pressure to outdoors with the fan off, then with the blower door at 50 Pa or at five and more pressures down from it, and once more with the fan off.',
  instrumentKinds: ['blower-door'],
  instrumentRequired: true,
  fields: [
    baseline('baselineBefore', 'Baseline before', true),
    baseline('baselineAfter', 'Baseline after', false),
  ],
  choices: [],
  rows: {
    label: 'Points',
    rowLabel: 'Point',
    min: 1,
    max: 40,
    fields: [
      {
        key: 'housePressure',
        label: 'House pressure to outdoors',
        quantity: 'pressureDifference',
        min: -120,
        max: 120,
        required: true,
        signed: true,
        help: 'As read, with its sign; the baseline is taken off.',
      },
      ...fanFields(1, 20000),
    ],
    choices: [rangeChoice],
  },
  confirmations: [
    { key: 'houseClosed', label: 'Outside doors, windows and dampers are closed; inside doors are open' },
    { key: 'fansOff', label: 'The air handler and all fans are off; the ducts’ registers are not sealed' },
    { key: 'ventilationSealed', label: 'Openings of continuous ventilation are closed and sealed outdoors' },
    { key: 'combustionOff', label: 'Vented combustion appliances are off and fireplaces are cleared' },
  ],
  gives: [...envelopeGives],
  work: envelope,
});

function baseline(key: string, label: string, isRequired: boolean): FieldDefinition {
  const help = 'House to outdoors with the fan covered and off, averaged over at least ten seconds.';
  return {
    key,
    label,
    quantity: 'pressureDifference',
    min: -25,
    max: 25,
    required: isRequired,
    signed: true,
    help,
  };
}

function envelope(entry: Entry): TestOutcome {
  const found = envelopePoints(entry);
  if (!found.ok) return refused(found.problem);
  const points = found.value;
  const remarks = baselineRemarks(baselinesOf(entry), points);
  const steps = points.flatMap((point) => point.steps);
  const directions = directionsOf(points);
  const enough = directions.every((each) => differentPressures(each) >= fewestFitPoints);
  if (enough && directions.every((each) => spreadOf(each) >= leastFitSpread))
    return fittedResult(entry, points, steps, remarks);
  if (directions.length > 1) return refused(mixedSigns(points));
  const nearest = nearestTo(envelopeTarget.reference, points);
  const why = enough
    ? 'the pressures lie too close together for a line'
    : `fewer than ${fewestFitPoints} different pressures`;
  const alone = points.length > 1 ? [`${why}: only ${nearest.label} is used`] : [];
  return onePointResult(entry, nearest, steps, [...remarks, ...alone]);
}

function mixedSigns(points: EnvelopePoint[]): Problem {
  const first = Math.sign(points[0]!.pressure);
  const { path } = points.find(({ pressure }) => Math.sign(pressure) !== first)!;
  const message = `Some points pressurise the house and some depressurise it. Enter one direction per reading, or ${fewestFitPoints} different pressures and more of each, from about 10 to 60 Pa.`;
  return { path, code: 'mixed-signs', message };
}

// Of two points equally near, the higher one is further from the noise of wind.
function nearestTo(reference: number, points: EnvelopePoint[]): EnvelopePoint {
  const distance = ({ pressure }: EnvelopePoint) => Math.abs(magnitude(pressure) - reference);
  return points.reduce((best, point) => {
    if (distance(point) !== distance(best)) return distance(point) < distance(best) ? point : best;
    return magnitude(point.pressure) > magnitude(best.pressure) ? point : best;
  });
}

/** Wind may press from one side before the test and from the other after it: each baseline is looked at, and both. */
function baselineRemarks(baselines: number[], points: EnvelopePoint[]): string[] {
  const windy = baselines
    .filter((each) => magnitude(each) > largestBaselinePa)
    .map(
      (each) =>
        `the baseline of ${plainNumber(each)} Pa is more than ${largestBaselinePa} Pa: wind or stack effect, test again on a calmer day`,
    );
  const [before, after] = baselines;
  if (before === undefined || after === undefined) return windy;
  const lowest = Math.min(...points.map(({ pressure }) => magnitude(pressure)));
  if (magnitude(after - before) <= envelopeLimits.driftShare * lowest) return [...new Set(windy)];
  const drift = `the baseline went from ${plainNumber(before)} to ${plainNumber(after)} Pa, more than a tenth of the ${plainNumber(lowest)} Pa that the fan made: the wind changed, read again when it is steady`;
  return [...new Set(windy), drift];
}
