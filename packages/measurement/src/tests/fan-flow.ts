import { choicePath, type EntryPart, optional, valuePath } from '../entry/part.ts';
import { rangeFlow } from '../flow/range-flow.ts';
import { type Checked, computed, problem } from '../outcome.ts';
import type { ChoiceDefinition, FieldDefinition, InstrumentFacts, Step } from '../types.ts';

/**
 * The two ways to enter what a fan moved: its own pressure on one range, or the flow its gauge showed.
 * @param mostFlow the most the fan can plausibly move, cfm @param leastFlow the least, cfm
 */
export function fanFields(leastFlow: number, mostFlow: number): FieldDefinition[] {
  return [
    {
      key: 'fanPressure',
      label: 'Fan pressure',
      quantity: 'pressureDifference',
      min: -1000,
      max: 1000,
      required: false,
      signed: true,
      help: 'Only when the gauge shows the fan pressure. Then choose the range too and leave the flow empty.',
    },
    {
      key: 'flow',
      label: 'Fan flow',
      quantity: 'airflow',
      min: leastFlow,
      max: mostFlow,
      required: false,
      signed: false,
      help: 'Only when the gauge shows the flow. Then leave the fan pressure empty.',
    },
  ];
}

/** The range (ring, plate, hole setting) on which the fan was read. */
export const rangeChoice: ChoiceDefinition = {
  key: 'range',
  label: 'Range',
  required: false,
  from: 'instrument-range',
  options: [],
  help: 'The opening that was on the fan.',
};

/**
 * What the fan moved, cfm: the flow entered, or the flow of the fan pressure on the chosen range (see
 * `rangeFlow`). Exactly one of the two must be entered.
 * Problems: `missing`, `entered-twice`, and those of `rangeFlow`, with paths inside the part. Never throws.
 */
export function fanFlow(
  part: EntryPart,
  instrument: InstrumentFacts | null,
): Checked<{ flow: number; steps: Step[] }> {
  const pressure = optional(part, 'fanPressure');
  const flow = optional(part, 'flow');
  if (pressure !== null && flow !== null) {
    return problem(
      valuePath(part, 'flow'),
      'entered-twice',
      'Fan pressure and flow are both entered. Enter the one that you read.',
    );
  }
  if (flow !== null) return computed({ flow, steps: [] });
  if (pressure === null) {
    return problem(
      valuePath(part, 'flow'),
      'missing',
      'Neither fan pressure nor flow is entered. Enter the one that you read.',
    );
  }
  const range = part.choices['range'];
  if (range === undefined || instrument === null) {
    return problem(
      choicePath(part, 'range'),
      'missing',
      'The range is missing. A fan pressure says nothing without the opening on the fan.',
    );
  }
  const found = rangeFlow(instrument, range, pressure);
  if (!found.ok)
    return problem(`${part.prefix}${found.problem.path}`, found.problem.code, found.problem.message);
  return computed({ flow: found.value.flow, steps: [found.value.step] });
}
