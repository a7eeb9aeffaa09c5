import { format, quantities, toDisplay, type UnitSystem } from '@countercheck/measurement';
import { doubtText } from '../../lib/units/doubt-text.ts';
import { knownKind } from '../../lib/units/show-stored.ts';

/** A result as it travels: the quantity is plain text in a file that came over the wire. */
export interface WorkedValue {
  key: string;
  label: string;
  quantity: string;
  value: number;
  unit: string;
  standardUncertainty: number | null;
  expandedUncertainty?: number | null | undefined;
  coverageFactor?: number | null | undefined;
}

/** A number of a result in the reader's units. */
export function showWorked(worked: WorkedValue, value: number, system: UnitSystem): string {
  const kind = knownKind(worked.quantity);
  return kind ? format(kind, value, system) : `${value} ${worked.unit}`;
}

/**
 * What stands after the number: its expanded uncertainty where it is known, else the standard one. A difference of
 * temperatures has no place on a scale with an offset, so it is left out.
 */
export function doubt(worked: WorkedValue, system: UnitSystem): string | null {
  const u = worked.expandedUncertainty ?? worked.standardUncertainty;
  if (u === null || worked.quantity === 'temperature') return null;
  const kind = knownKind(worked.quantity);
  if (!kind) return `± ${showWorked(worked, u, system)}`;
  const { label, decimals } = quantities[kind][system];
  return `± ${doubtText(toDisplay(kind, u, system), decimals)} ${label}`.trimEnd();
}

/** How sure a number is, in a sentence. */
export function uncertaintyWords(worked: WorkedValue, system: UnitSystem): string {
  const { standardUncertainty: u, expandedUncertainty, coverageFactor, quantity } = worked;
  if (quantity === 'temperature') return 'The uncertainty is that of the thermometer.';
  if (u === null) return 'Uncertainty not known: no accuracy is stated for what this was read with.';
  const standard = `standard uncertainty ${showWorked(worked, u, system)}`;
  if (expandedUncertainty === null || expandedUncertainty === undefined) return `A ${standard}.`;
  const k = coverageFactor
    ? ` = ${Number(coverageFactor.toPrecision(3))} × the ${standard}`
    : `, ${standard}`;
  return `Expanded uncertainty (95 %): ± ${showWorked(worked, expandedUncertainty, system)}${k}.`;
}
