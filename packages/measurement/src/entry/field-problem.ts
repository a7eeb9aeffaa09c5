import type { FieldDefinition, Problem } from '../types.ts';
import { quantities } from '../quantities.ts';

/**
 * What keeps one entered number from being used, in words, or null when it can be used.
 * @param field the field's definition; `min` and `max` are in the stored unit of its quantity, inclusive
 * @param value what was entered, in the stored unit; `undefined` when left out
 * @param path where it stands in the raw reading, e.g. `values.pressure`
 * Codes: `missing`, `not-a-number`, `negative`, `out-of-plausible-range`. Never throws.
 */
export function fieldProblem(field: FieldDefinition, value: unknown, path: string): Problem | null {
  if (value === undefined || value === null) {
    if (!field.required) return null;
    return { path, code: 'missing', message: `${field.label} is missing. Enter the value that you read.` };
  }
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    return {
      path,
      code: 'not-a-number',
      message: `${field.label} is not a number. Enter the value that you read.`,
    };
  }
  const { label: unit } = quantities[field.quantity].us;
  const withUnit = (shown: string) => `${shown} ${unit}`.trim();
  if (value < 0 && !field.signed) {
    return {
      path,
      code: 'negative',
      message: `${field.label} is ${withUnit(`${value}`)}, but it cannot be negative. Enter the value without a sign.`,
    };
  }
  if (value < field.min || value > field.max) {
    return {
      path,
      code: 'out-of-plausible-range',
      message:
        `${field.label} is ${withUnit(`${value}`)}; plausible is ${withUnit(`${field.min} to ${field.max}`)}. ` +
        'Check the reading, the decimal point and the unit.',
    };
  }
  return null;
}
