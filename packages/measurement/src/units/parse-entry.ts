import type { QuantityKind, UnitSystem } from '../quantities.ts';
import { fromDisplay } from './display.ts';

export type ParsedEntry = { value: number; problem: null } | { value: null; problem: string };

const decimal = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/;
const grouped = /^[+-]?[1-9]\d{0,2}(,\d{3})+$/;

/**
 * Reads a number as a person typed it, in the unit the page shows for that quantity and system, and gives
 * it in the stored unit.
 * Accepts a point or a comma as the decimal sign, a leading + or minus (also the typographic one), and
 * spaces around. Refuses in words: nothing, letters or units, powers of ten ("1e9"), more than 15
 * characters, and "1,300", which one reader takes for 1300 and another for 1.3. Whether the number is
 * plausible is the field's business (`fieldProblem`). Never throws.
 */
export function parseEntry(kind: QuantityKind, text: string, system: UnitSystem): ParsedEntry {
  const entered = text.trim().replace(/^−/, '-');
  if (entered === '') return refuse('Nothing is entered. Enter the number that you read.');
  if (entered.length > 15)
    return refuse('That is longer than any reading. Enter only the number that you read.');
  if (/^[+-]?[\d.,]+e[+-]?\d+$/i.test(entered)) {
    return refuse(`"${entered}" is written with a power of ten. Write the number out, e.g. 0.085 or 1300.`);
  }
  if (grouped.test(entered)) {
    return refuse(
      `"${entered}" could be ${entered.replaceAll(',', '')} or a decimal. Write it without the comma.`,
    );
  }
  if (!decimal.test(entered)) {
    return refuse(
      `"${entered}" is not a number. Enter digits with one decimal point or comma, without the unit.`,
    );
  }
  return { value: fromDisplay(kind, Number(entered.replace(',', '.')) + 0, system), problem: null };
}

function refuse(problem: string): ParsedEntry {
  return { value: null, problem };
}
