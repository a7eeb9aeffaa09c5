import { expect, it } from 'vitest';
import { choicePath, type EntryPart, optional, required, valuePath } from './part.ts';

const part: EntryPart = { label: 'Point 2', prefix: 'rows.1.', values: { flow: 0 }, choices: {} };

it('reads values, zero included, and knows what was left out', () => {
  expect(optional(part, 'flow')).toBe(0);
  expect(optional(part, 'pressure')).toBeNull();
  expect(required(part, 'flow')).toBe(0);
});

it('blames the definition for a value that it did not require', () => {
  expect(() => required(part, 'pressure')).toThrow('the test did not require rows.1.values.pressure');
});

it('names paths inside the part', () => {
  expect(valuePath(part, 'flow')).toBe('rows.1.values.flow');
  expect(choicePath(part, 'range')).toBe('rows.1.choices.range');
});
