import { type Checked, computed, problem } from '../outcome.ts';
import { coverageFactor } from '../uncertainty/coverage.ts';
import { plainNumber } from '../units/round.ts';
import type { WorkingLine } from '../working/worked.ts';
import { summariseBaseline } from './baseline.ts';
import type { BaselineSummary } from './types.ts';

/**
 * The exponent of a house that was not fitted, and its standard uncertainty. 0.65 and "0.6 to 0.7 when unknown" were
 * seen in the documentation of an open building model library; that the range is taken as one standard deviation,
 * because houses lie outside it, is common practice, no published source.
 */
export const assumedExponent = { value: 0.65, standardUncertainty: 0.05 } as const;

export interface OnePointTest {
  /** house to outdoors as read, Pa, with its sign */
  pressure: number;
  /** cfm, above zero */
  flow: number;
  /** Pa, as in `EnvelopeTest` */
  baselineBefore: number | readonly number[];
  baselineAfter?: number | readonly number[];
  /** Pa; 50 when left out */
  reference?: number;
  /** `assumedExponent` when left out */
  exponent?: number;
  exponentUncertainty?: number;
  /** standard uncertainties of the readings, cfm and Pa; zero when left out */
  flowUncertainty?: number;
  pressureUncertainty?: number;
}

export interface OnePointResult {
  baseline: BaselineSummary;
  /** made by the fan, Pa, without its sign */
  pressure: number;
  /** leakage at the reference, cfm, with its uncertainty */
  flow: number;
  standardUncertainty: number;
  expandedUncertainty: number;
  coverageFactor: number;
  /** what of the standard uncertainty comes from where, cfm */
  parts: { flow: number; pressure: number; exponent: number };
  steps: WorkingLine[];
  remarks: string[];
}

/** Lowest pressure that one point is taken from, Pa: ANSI/RESNET/ICC 380 (from memory). */
const lowestOnePoint = 15;

/**
 * Leakage at a reference pressure from one point and an assumed exponent: Q_ref = Q · (P_ref / P)^n, cfm, with
 * u² / Q_ref² = u(Q)² / Q² + n² · u(P)² / P² + ln(P_ref / P)² · u(n)².
 * Problems: those of `summariseBaseline`, `not-a-number`, `bad-flow`, `zero-pressure`, `below-lowest-pressure` (under
 * 15 Pa), `bad-reference`, `bad-exponent` (outside 0.4 to 1.1), `bad-uncertainty`. Never throws.
 * Source: ANSI/RESNET/ICC 380 (from memory); algebra; vectors computed independently (1100 cfm at 38 Pa gives
 * 1314.8).
 */
export function onePointEnvelope(test: OnePointTest): Checked<OnePointResult> {
  const { flow, reference = 50, exponent = assumedExponent.value } = test;
  const {
    exponentUncertainty = assumedExponent.standardUncertainty,
    flowUncertainty = 0,
    pressureUncertainty = 0,
  } = test;
  const found = summariseBaseline(test.baselineBefore, test.baselineAfter);
  if (!found.ok) return found;
  const pressure = Math.abs(test.pressure - found.value.mean);
  const refusal =
    readingProblem(flow, pressure) ??
    numbersProblem(reference, exponent, [exponentUncertainty, flowUncertainty, pressureUncertainty]);
  if (refusal) return refusal;
  const away = Math.log(reference / pressure);
  const result = flow * Math.exp(exponent * away);
  const parts = {
    flow: (result * flowUncertainty) / flow,
    pressure: (result * exponent * pressureUncertainty) / pressure,
    exponent: result * Math.abs(away) * exponentUncertainty,
  };
  const u = Math.hypot(parts.flow, parts.pressure, parts.exponent);
  const k = coverageFactor();
  const working = `${plainNumber(flow)} × (${plainNumber(reference)} / ${plainNumber(pressure)})^${plainNumber(exponent)}`;
  return computed({
    baseline: found.value,
    pressure,
    flow: result,
    standardUncertainty: u,
    expandedUncertainty: k * u,
    coverageFactor: k,
    parts,
    steps: [{ label: `Leakage at ${plainNumber(reference)} Pa`, working, value: result, unit: 'cfm' }],
    remarks: [
      ...(test.exponent === undefined ? [`exponent ${assumedExponent.value} assumed`] : []),
      ...(Math.abs(pressure - reference) > 0.5 ? [`taken from ${plainNumber(pressure)} Pa`] : []),
    ],
  });
}

function readingProblem(flow: number, pressure: number): ReturnType<typeof problem> | null {
  if (!Number.isFinite(pressure)) return problem('pressure', 'not-a-number', 'The pressure is not a number.');
  if (!(flow > 0 && flow < Infinity))
    return problem('flow', 'bad-flow', `The flow is ${flow} cfm; it must be above zero.`);
  if (pressure === 0)
    return problem('pressure', 'zero-pressure', 'The fan changed nothing. Check tubing and fan.');
  if (pressure >= lowestOnePoint) return null;
  const message = `The pressure reached is ${plainNumber(pressure)} Pa; below ${lowestOnePoint} Pa nothing is taken to a reference. Find the large leak or use a larger opening, then read again.`;
  return problem('pressure', 'below-lowest-pressure', message);
}

function numbersProblem(reference: number, exponent: number, uncertainties: number[]) {
  if (!(reference > 0 && reference < Infinity))
    return problem('reference', 'bad-reference', `The reference pressure is ${reference} Pa; above zero.`);
  if (!(exponent >= 0.4 && exponent <= 1.1))
    return problem('exponent', 'bad-exponent', `An exponent of ${exponent} is not that of a house.`);
  if (!uncertainties.every((u) => u >= 0 && u < Infinity))
    return problem('flowUncertainty', 'bad-uncertainty', 'An uncertainty is not zero or above.');
  return null;
}
