import { rangeFlow } from '../flow/range-flow.ts';
import { type Checked, computed, problem } from '../outcome.ts';
import type { InstrumentFacts, Step } from '../types.ts';
import { accuracyLimit } from '../uncertainty.ts';
import { type BudgetPart, errorBudget, type ErrorBudget } from './error-budget.ts';
import { nativeUnit } from './native-unit.ts';

/** What is known of an instrument's errors beside its stated accuracy, in its native unit. */
export interface MoreOfAReading {
  /** how far its zero may have moved since it was set, as a limit */
  zeroDrift?: number;
  /** standard uncertainty of the mean of repeated readings: their scatter over the root of their number */
  scatter?: number;
}

/**
 * The error budget of one reading of an instrument, in its native unit: stated accuracy (limit), half the display's
 * step (limit), zero drift (limit) and scatter (standard uncertainty). What is not known is left out.
 * @param reading in the native unit (`nativeUnit`)
 * Problems: `not-a-number`, `no-accuracy` (none stated: the budget would look better than it is), those of
 * `errorBudget`. Never throws. Source: JCGM 100, 4.3.7 and F.2.2.1 (from memory); which parts there are is common
 * practice, no published source.
 */
export function readingBudget(
  instrument: InstrumentFacts,
  reading: number,
  more: MoreOfAReading = {},
): Checked<ErrorBudget> {
  if (!Number.isFinite(reading)) return problem('reading', 'not-a-number', 'The reading is not a number.');
  const parts = readingParts(instrument, reading, more);
  if (!parts) return noAccuracy(instrument);
  return errorBudget(nativeUnit(instrument.kind), parts);
}

/** What is known of a fan's errors beside the accuracy of its flow. */
export interface MoreOfAFan {
  /** the gauge that read the fan's pressure, when the fan's accuracy does not speak for it already */
  gauge?: InstrumentFacts;
  /** how far the gauge's zero may have moved, Pa, as a limit */
  zeroDrift?: number;
  /** standard uncertainty of the range's coefficient, % of the flow */
  coefficientPercent?: number;
  /** standard uncertainty of the air's density, % of it; half of it reaches the flow of a pressure-based device */
  densityPercent?: number;
}

export interface FanFlowBudget {
  /** cfm */
  flow: number;
  /** of the flow, cfm */
  budget: ErrorBudget;
  /** the flow's working, then the budget's */
  steps: (Step | ErrorBudget['steps'][number])[];
}

/**
 * A fan's flow on a range with its error budget, cfm: the device's stated accuracy (limit), and through the range's
 * exponent, dQ = n · Q / P · dP, the errors of the gauge: its accuracy, half its display's step, its zero drift.
 * A low fan pressure therefore costs accuracy even inside the window.
 * @param pressure of the fan, Pa
 * Problems: those of `rangeFlow`, `readingBudget` and `errorBudget`; `wrong-gauge` for a gauge that does not read
 * pressure. Never throws. Source: JCGM 100, 5.1.2 (from memory).
 */
export function fanFlowBudget(
  instrument: InstrumentFacts,
  range: string,
  pressure: number,
  more: MoreOfAFan = {},
): Checked<FanFlowBudget> {
  const found = rangeFlow(instrument, range, pressure);
  if (!found.ok) return found;
  const { flow, exponent, step } = found.value;
  const { gauge, zeroDrift = 0, coefficientPercent = 0, densityPercent = 0 } = more;
  if (gauge && nativeUnit(gauge.kind) !== 'Pa') {
    return problem('gauge', 'wrong-gauge', `${gauge.label} does not read a pressure in Pa.`);
  }
  const ofTheFlow = readingParts(instrument, flow, {});
  if (!ofTheFlow) return noAccuracy(instrument);
  const ofThePressure = gauge ? readingParts(gauge, pressure, { zeroDrift }) : driftPart(zeroDrift);
  if (gauge && !ofThePressure) return noAccuracy(gauge);
  const perPascal = (exponent * flow) / Math.abs(pressure);
  const budget = errorBudget('cfm', [
    ...ofTheFlow,
    ...(ofThePressure ?? []).map((part) => ({
      ...part,
      label: `Fan pressure: ${part.label.toLowerCase()}`,
      sensitivity: perPascal,
    })),
    { label: 'Coefficient of the range', size: (coefficientPercent * flow) / 100, shape: 'standard' },
    { label: 'Density of the air', size: (densityPercent * flow) / 200, shape: 'standard' },
  ]);
  if (!budget.ok) return budget;
  return computed({ flow, budget: budget.value, steps: [step, ...budget.value.steps] });
}

function readingParts(
  instrument: InstrumentFacts,
  reading: number,
  { zeroDrift = 0, scatter = 0 }: MoreOfAReading,
): BudgetPart[] | null {
  const limit = accuracyLimit(instrument, reading);
  if (limit === null) return null;
  const { resolution } = instrument;
  return [
    { label: 'Stated accuracy', size: limit, shape: 'rectangular' },
    ...(resolution === null
      ? []
      : [{ label: 'Step of the display', size: resolution / 2, shape: 'rectangular' } as const]),
    ...driftPart(zeroDrift),
    { label: 'Scatter of the readings', size: scatter, shape: 'standard' },
  ];
}

function driftPart(zeroDrift: number): BudgetPart[] {
  return [{ label: 'Drift of the zero', size: zeroDrift, shape: 'rectangular' }];
}

function noAccuracy({ label }: InstrumentFacts) {
  return problem('instrument', 'no-accuracy', `${label} states no accuracy, so no error budget can be made.`);
}
