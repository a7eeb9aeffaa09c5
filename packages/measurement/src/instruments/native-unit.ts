import type { InstrumentKind } from '../types.ts';
import type { ConvertibleUnit } from '../units/unit-table.ts';

const nativeUnits: Record<InstrumentKind, ConvertibleUnit> = {
  manometer: 'Pa',
  'blower-door': 'cfm',
  'duct-tester': 'cfm',
  'flow-hood': 'cfm',
  'powered-flow-hood': 'cfm',
  'exhaust-flow-meter': 'cfm',
  'combustion-analyzer': 'ppm',
  'ambient-co-monitor': 'ppm',
  thermometer: 'degF',
  'tape-measure': 'in',
  stopwatch: 's',
};

/**
 * The unit in which a kind of instrument's absolute accuracy and resolution are kept: Pa for a manometer, cfm
 * for every flow device (its accuracy is that of the flow, gauge included), ppm, °F, in. or s for the rest.
 * Never throws for a kind of the list.
 */
export function nativeUnit(kind: InstrumentKind): ConvertibleUnit {
  return nativeUnits[kind];
}
