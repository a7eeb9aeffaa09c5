import type { Reading } from '@countercheck/contracts';
import {
  format,
  quantities,
  type QuantityKind,
  testDefinition,
  type ChoiceDefinition,
  type FieldDefinition,
  type UnitSystem,
} from '@countercheck/measurement';
import { averagedSeconds } from '../../../lib/averaged.ts';
import { enteredUnit } from '../../../lib/units/entry-text.ts';

export interface EnteredLine {
  label: string;
  text: string;
}

/** The unit of a typed text as the trade writes it. */
function unitShown(kind: QuantityKind, unit: string): string {
  const system = (['us', 'si'] as const).find((each) => enteredUnit(kind, each) === unit);
  return system ? quantities[kind][system].label : unit;
}

/** A reading's raw entries as they were typed, in the order of its form. */
export function enteredLines(
  reading: Pick<Reading, 'test' | 'raw' | 'entered'> & Partial<Pick<Reading, 'conditions'>>,
  system: UnitSystem,
): EnteredLine[] {
  const { fields, choices, rows } = testDefinition(reading.test);
  const averaged = averagedSeconds(reading.conditions ?? {});
  const over = (path: string) => (averaged[path] === undefined ? '' : `, averaged over ${averaged[path]} s`);
  const part = (
    ask: { fields: FieldDefinition[]; choices: ChoiceDefinition[] },
    given: { values: Record<string, number>; choices: Record<string, string> },
    prefix: string,
    name: string,
  ): EnteredLine[] => [
    ...ask.choices.flatMap(({ key, label, options }) => {
      const value = given.choices[key];
      if (value === undefined) return [];
      return [{ label: name + label, text: options.find((each) => each.value === value)?.label ?? value }];
    }),
    ...ask.fields.flatMap(({ key, label, quantity }) => {
      const value = given.values[key];
      if (value === undefined) return [];
      const typed = reading.entered[`${prefix}values.${key}`];
      const text = typed
        ? `${typed.text} ${unitShown(quantity, typed.unit)}`.trim()
        : format(quantity, value, system);
      return [{ label: name + label, text: text + over(`${prefix}values.${key}`) }];
    }),
  ];
  const ahead = reading.conditions?.['clockAheadMinutes'];
  const off = typeof ahead === 'number' && `${Math.abs(ahead)} min ${ahead > 0 ? 'ahead' : 'behind'}`;
  return [
    ...(off ? [{ label: 'Time of reading', text: `set right: the phone’s clock was ${off}` }] : []),
    ...(averaged[''] === undefined ? [] : [{ label: 'Averaged over', text: `${averaged['']} s` }]),
    ...part({ fields, choices }, reading.raw, '', ''),
    ...reading.raw.rows.flatMap((row, i) => (rows ? part(rows, row, `rows.${i}.`, `${row.label}, `) : [])),
  ];
}
