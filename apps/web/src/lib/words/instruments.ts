import type { InstrumentKind } from '@countercheck/measurement';

export const instrumentWords: Record<InstrumentKind, string> = {
  manometer: 'Manometer',
  'blower-door': 'Blower door',
  'duct-tester': 'Duct tester',
  'flow-hood': 'Flow hood',
  'powered-flow-hood': 'Powered flow hood',
  'exhaust-flow-meter': 'Exhaust flow meter',
  'combustion-analyzer': 'Combustion analyzer',
  'ambient-co-monitor': 'Ambient CO monitor',
  thermometer: 'Thermometer',
  'tape-measure': 'Tape measure',
  stopwatch: 'Stopwatch',
};
