import { type Entry, optional, valuePath } from '../entry/part.ts';
import { flowAtReference, type ReferenceTarget } from '../flow/flow-at-reference.ts';
import { budgetedFlowAtReference } from '../flow/reference-uncertainty.ts';
import { boundedReading } from '../instruments/bounded-reading.ts';
import { readingBudget } from '../instruments/device-budget.ts';
import { gave, refused } from '../outcome.ts';
import { magnitude } from '../pressure/signs.ts';
import type { FieldDefinition, Step, TestOutcome } from '../types.ts';
import { accuracyLimit, standardUncertainty } from '../uncertainty.ts';
import { fromHalfWidth } from '../uncertainty/distributions.ts';
import { fanFields, fanFlow, rangeChoice } from './fan-flow.ts';
import { type Given, measured } from './measured.ts';

export const ductGives = [
  { key: 'leakageAt25', label: 'Leakage at 25 Pa', quantity: 'airflow' },
  { key: 'reachedPressure', label: 'Pressure reached', quantity: 'pressureDifference' },
  { key: 'measuredFlow', label: 'Flow at the pressure reached', quantity: 'airflow' },
] as const satisfies Given[];

/**
 * Duct leakage is stated at 25 Pa with the exponent 0.60: California RA3.1.4.3 for the pressure (seen), hardware
 * manuals for the exponent (seen; in ANSI/RESNET/ICC 380 and ASTM E1554 from memory). Readings below 40 % of it
 * (10 Pa) are refused: common practice, no published source.
 */
export const ductTarget: ReferenceTarget = {
  reference: 25,
  exponent: 0.6,
  lowestShare: 0.4,
  label: 'Leakage at 25 Pa',
};

/**
 * How far the exponent of a duct system may lie from 0.60: 0.50, a sharp hole, to 0.70. Common practice, no
 * published source. As a limit, it becomes a standard uncertainty of 0.058.
 */
export const ductExponentWithin = 0.1;

/**
 * Accuracy of the gauge on the ducts. A tester's own accuracy speaks of its flow only, and no other gauge is
 * recorded with the reading, so the one that the standards ask for is assumed: 1 % or 0.25 Pa (seen for
 * ANSI/RESNET/ACCA 310 in an article on instruments; for ANSI/RESNET/ICC 380 from memory).
 */
export const ductGauge = { accuracyPercent: 1, accuracyAbsolute: 0.25 } as const;

/** The pressure of the ducts against the house (or outdoors where the test says so), Pa; either sign. */
export const ductPressureField: FieldDefinition = {
  key: 'ductPressure',
  label: 'Duct pressure',
  quantity: 'pressureDifference',
  min: -100,
  max: 100,
  required: true,
  signed: true,
  help: 'Aim for 25 Pa. Either sign: the ducts may be pressurised or depressurised.',
};

/** What a duct tester can plausibly move, cfm. Common practice, no published source. */
export const ductFanFields = fanFields(0, 2000);
export const ductRangeChoice = rangeChoice;

/**
 * Duct leakage at 25 Pa, cfm, from the tester's flow at the pressure reached: Q · (25 / P)^0.60.
 * @param pressureKey the field with the pressure across the ducts' leaks
 * Problems: those of `fanFlow` and `flowAtReference`. The uncertainty is that of the flow, of the gauge on the ducts
 * (`ductGauge`) and of the assumed exponent (`ductExponentWithin`), which counts the more the further 25 Pa was; null
 * when the tester states no accuracy. A flow below the step of the tester's display is remarked on with what it is at
 * most. Never throws.
 */
export function ductLeakage(entry: Entry, pressureKey: string, pressure: number): TestOutcome {
  const fan = fanFlow(entry, entry.instrument);
  if (!fan.ok) return refused(fan.problem);
  const { flow, steps } = fan.value;
  const found = flowAtReference(flow, pressure, ductTarget);
  if (!found.ok)
    return refused({ ...found.problem, path: found.problem.path || valuePath(entry, pressureKey) });
  const leakage = found.value;
  const u = flowUncertainty(entry, flow);
  const budget = leakageBudget(flow, pressure, u);
  return gave(
    [
      measured(ductGives[0], leakage.flow, budget.standardUncertainty),
      measured(ductGives[1], magnitude(pressure), gaugeUncertainty(pressure)),
      measured(ductGives[2], flow, u),
    ],
    [...steps, leakage.step, ...budget.steps],
    [...(leakage.remark === null ? [] : [leakage.remark]), ...tooSmallToRead(entry, flow)],
  );
}

/** cfm; a flow that the tester displayed has the step of its display in it too. */
function flowUncertainty(entry: Entry, flow: number): number | null {
  const { instrument } = entry;
  if (instrument === null || optional(entry, 'flow') === null)
    return standardUncertainty(instrument, flow, 'airflow');
  const budget = readingBudget(instrument, flow);
  return budget.ok ? budget.value.standardUncertainty : null;
}

function tooSmallToRead(entry: Entry, flow: number): string[] {
  if (entry.instrument === null || optional(entry, 'flow') === null) return [];
  const bounded = boundedReading(entry.instrument, flow);
  return bounded.ok && bounded.value.kind === 'below-resolution' ? [bounded.value.words] : [];
}

function leakageBudget(
  flow: number,
  pressure: number,
  flowUncertainty: number | null,
): { standardUncertainty: number | null; steps: Step[] } {
  const unknown = { standardUncertainty: null, steps: [] };
  const gauge = gaugeUncertainty(pressure);
  if (flowUncertainty === null || gauge === null) return unknown;
  const found = budgetedFlowAtReference(flow, pressure, ductTarget, {
    flow: flowUncertainty,
    pressure: gauge,
    exponent: fromHalfWidth(ductExponentWithin, 'rectangular'),
  });
  if (!found.ok) return unknown;
  const { standardUncertainty: u, steps } = found.value.budget;
  return { standardUncertainty: u, steps: steps.map((step) => ({ ...step, unit: 'cfm' })) };
}

function gaugeUncertainty(pressure: number): number | null {
  const limit = accuracyLimit(ductGauge, pressure);
  return limit === null ? null : fromHalfWidth(limit, 'rectangular');
}
