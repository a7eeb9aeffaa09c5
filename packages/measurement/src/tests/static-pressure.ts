import { type Entry, required } from '../entry/part.ts';
import { gave, refused } from '../outcome.ts';
import { magnitude } from '../pressure/signs.ts';
import type { ConfirmationDefinition, FieldDefinition, TestOutcome } from '../types.ts';
import { standardUncertainty } from '../uncertainty.ts';
import { format } from '../units/display.ts';
import { type Given, measured } from './measured.ts';

export const staticGives = [
  { key: 'staticPressure', label: 'Static pressure (size)', quantity: 'staticPressure' },
  { key: 'signedPressure', label: 'Static pressure as read', quantity: 'staticPressure' },
] as const satisfies Given[];

/** Plausible statics, ±3 in. w.c.: a house system is designed for around 0.5 in. Common practice, no published source. */
export function staticField(help: string): FieldDefinition {
  return {
    key: 'pressure',
    label: 'Pressure',
    quantity: 'staticPressure',
    min: -3,
    max: 3,
    required: true,
    signed: true,
    help,
  };
}

export const staticConfirmations: ConfirmationDefinition[] = [
  { key: 'installersTestHole', label: 'The probe is in the installer’s own test hole' },
  { key: 'airHandlerOn', label: 'The air handler runs at the airflow that the installer reported' },
  { key: 'filterIn', label: 'The filter is in and the panels are closed' },
  { key: 'registersOpen', label: 'All registers, grilles and dampers are open' },
];

/**
 * The static pressure on one side of the air handler, in. w.c., as read and by size. The supply side is above
 * the room's pressure and the return side below it.
 * Problems: `zero-pressure`, `wrong-sign` (probes or ports swapped). Never throws.
 * Source of the signs: data format for home energy ratings, "+ supply, - return" (docs/sources.md,
 * Measurement 4).
 */
export function staticOutcome(entry: Entry, side: 'supply' | 'return'): TestOutcome {
  const pressure = required(entry, 'pressure');
  const path = 'values.pressure';
  if (pressure === 0) {
    const message =
      'The pressure is 0 in. w.c.: the air handler is off or the tubing is not connected. Check both, then read again.';
    return refused({ path, code: 'zero-pressure', message });
  }
  const expected = side === 'supply' ? 1 : -1;
  if (Math.sign(pressure) !== expected) {
    const words = side === 'supply' ? 'above zero' : 'below zero';
    const message =
      `The ${side} static pressure is ${format('staticPressure', pressure, 'us')}, but the ${side} side is ${words}: ` +
      'the probes or the ports of the gauge look swapped. Check which hole and which port, then enter the reading with its sign.';
    return refused({ path, code: 'wrong-sign', message });
  }
  const uncertainty = standardUncertainty(entry.instrument, pressure, 'staticPressure');
  return gave([
    measured(staticGives[0], magnitude(pressure), uncertainty),
    measured(staticGives[1], pressure, uncertainty),
  ]);
}
