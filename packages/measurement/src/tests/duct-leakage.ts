import { type Entry, valuePath } from '../entry/part.ts';
import { flowAtReference, type ReferenceTarget } from '../flow/flow-at-reference.ts';
import { gave, refused } from '../outcome.ts';
import { magnitude } from '../pressure/signs.ts';
import type { FieldDefinition, TestOutcome } from '../types.ts';
import { standardUncertainty } from '../uncertainty.ts';
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
 * Problems: those of `fanFlow` and `flowAtReference`. The uncertainty is that of the flow, scaled with it.
 * Never throws.
 */
export function ductLeakage(entry: Entry, pressureKey: string, pressure: number): TestOutcome {
  const fan = fanFlow(entry, entry.instrument);
  if (!fan.ok) return refused(fan.problem);
  const { flow, steps } = fan.value;
  const found = flowAtReference(flow, pressure, ductTarget);
  if (!found.ok)
    return refused({ ...found.problem, path: found.problem.path || valuePath(entry, pressureKey) });
  const leakage = found.value;
  const u = standardUncertainty(entry.instrument, flow, 'airflow');
  return gave(
    [
      measured(ductGives[0], leakage.flow, u === null ? null : u * leakage.factor),
      measured(ductGives[1], magnitude(pressure)),
      measured(ductGives[2], flow, u),
    ],
    [...steps, leakage.step],
    leakage.remark === null ? [] : [leakage.remark],
  );
}
