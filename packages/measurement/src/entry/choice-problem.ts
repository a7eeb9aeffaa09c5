import type { ChoiceDefinition, InstrumentFacts, Problem } from '../types.ts';

/**
 * What keeps one choice from being used, in words, or null when it can be used.
 * A choice `from: 'instrument-range'` must be one of the instrument's ranges, other choices one of the options.
 * Codes: `missing`, `unknown-choice`. Never throws.
 */
export function choiceProblem(
  choice: ChoiceDefinition,
  value: unknown,
  path: string,
  instrument: InstrumentFacts | null,
): Problem | null {
  const offered = offeredBy(choice, instrument);
  const shown = offered.join(', ') || 'none';
  if (value === undefined || value === null || value === '') {
    if (!choice.required) return null;
    return { path, code: 'missing', message: `${choice.label} is missing. Choose one of: ${shown}.` };
  }
  if (typeof value === 'string' && offered.includes(value)) return null;
  const entered = typeof value === 'string' ? `"${value}"` : 'not a text';
  return { path, code: 'unknown-choice', message: `${choice.label} is ${entered}. Choose one of: ${shown}.` };
}

function offeredBy(choice: ChoiceDefinition, instrument: InstrumentFacts | null): string[] {
  if (choice.from === 'options') return choice.options.map(({ value }) => value);
  return instrument ? instrument.ranges.map(({ range }) => range) : [];
}
