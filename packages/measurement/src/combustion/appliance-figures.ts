import { commonPractice, type FigureSource, fromMemory, seen } from '../working/figure-source.ts';
import type { CombustionProtocol, CombustionThreshold } from './thresholds.ts';

const applianceStandard = seen(
  'ANSI Z21 as on a secondary page, https://forum.nachi.org/t/yellow-nat-gas-flames/26410',
);
const study = seen(
  'Limits of one programme, from a study, http://homedocbox.com/Appliances/113487921- (rest of the address not kept)',
);
const tableD6 = fromMemory('IFGC Appendix D, Table D.6');

/** Carbon monoxide in the flue gas, ppm, by appliance. Read after five minutes of main burner. */
export const flueCarbonMonoxideThresholds: readonly CombustionThreshold[] = [
  flue('appliance-standard', 'furnace', 400, 'air-free', applianceStandard),
  flue('appliance-standard', 'room-heater', 200, 'air-free', applianceStandard),
  flue('appliance-standard', 'oven', 800, 'air-free', applianceStandard),
  flue('programme-study', 'furnace', 100, 'as-measured', study),
  flue('programme-study', 'water-heater', 100, 'as-measured', study),
  flue('programme-study', 'oven', 150, 'as-measured', study),
  flue('fuel-gas-code', 'furnace', 400, 'air-free', tableD6),
  flue('fuel-gas-code', 'boiler', 400, 'air-free', tableD6),
  flue('fuel-gas-code', 'wall-furnace', 200, 'air-free', tableD6),
  flue('fuel-gas-code', 'wall-furnace-direct-vent', 400, 'air-free', tableD6),
  flue('fuel-gas-code', 'room-heater', 200, 'air-free', tableD6),
  flue('fuel-gas-code', 'water-heater', 200, 'air-free', tableD6),
  flue('fuel-gas-code', 'dryer', 400, 'air-free', tableD6),
  flue('fuel-gas-code', 'oven', 225, 'as-measured', tableD6),
  flue('fuel-gas-code', 'top-burner', 25, 'as-measured', tableD6),
  flue('fuel-gas-code', 'refrigerator', 25, 'as-measured', tableD6),
  flue('fuel-gas-code', 'gas-log', 25, 'as-measured', tableD6),
];

/** How long flue gas may spill after lighting, s, by the state of the vent. */
export const spillageThresholds: readonly CombustionThreshold[] = [
  spillage('older-building-analyst', 'cold', 60, older()),
  spillage('older-building-analyst', 'warm', 60, older()),
  spillage('bpi-1200', 'warm', 120, fromMemory('BPI-1200')),
  spillage('bpi-1200', 'cold', 300, fromMemory('BPI-1200')),
];

/** What still spills when the watch ends stops the work under every protocol. */
export const stillSpilling: CombustionThreshold = {
  id: 'spillage.still-spilling',
  protocol: 'older-building-analyst',
  reached: 'at-or-above',
  value: 0,
  unit: 's',
  action: 'stop-work',
  source: commonPractice,
};

const oldTables = fromMemory('Older building analyst and programme tables');

/** How far a combustion zone may be pulled down, Pa, by what is vented there. */
export const depressurizationThresholds: readonly CombustionThreshold[] = [
  zone('water-heater-alone', 2),
  zone('with-water-heater', 3),
  zone('alone-or-vent-damper', 5),
  zone('fan-assisted-common', 5),
  zone('power-or-induced-alone', 15),
  zone('direct-or-sealed', 50),
];

function flue(
  protocol: CombustionProtocol,
  of: string,
  value: number,
  basis: 'air-free' | 'as-measured',
  source: FigureSource,
): CombustionThreshold {
  const id = `flue-co.${protocol}.${of}`;
  return { id, protocol, of, value, basis, reached: 'above', unit: 'ppm', action: 'correct', source };
}

function spillage(
  protocol: CombustionProtocol,
  of: 'cold' | 'warm',
  value: number,
  source: FigureSource,
): CombustionThreshold {
  const id = `spillage.${protocol}.${of}`;
  return { id, protocol, of, value, reached: 'above', unit: 's', action: 'correct', source };
}

function zone(of: string, value: number): CombustionThreshold {
  const id = `depressurization.older-building-analyst.${of}`;
  const protocol = 'older-building-analyst';
  return { id, protocol, of, value, reached: 'above', unit: 'Pa', action: 'correct', source: oldTables };
}

function older(): FigureSource {
  return seen(
    'Older building analyst standard, clear within a minute, as at https://ja.scribd.com/document/57159841/',
  );
}
