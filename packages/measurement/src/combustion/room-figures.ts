import { fromMemory, seen } from '../working/figure-source.ts';
import type { CombustionThreshold } from './thresholds.ts';

const bands = seen(
  'Older bands of ambient carbon monoxide, as at https://forum.nachi.org/t/carbon-monoxide/169908',
);
const appendixD = seen(
  'IFGC Appendix D as in IRC 2018 Appendix D, http://online.flipbuilder.com/mewf/mima/files/basic-html/page871.html',
);
const newer = fromMemory('BPI-1200 and ACCA 12 QH');

/** Carbon monoxide in the rooms, ppm above none. */
export const roomCarbonMonoxideThresholds: readonly CombustionThreshold[] = [
  room('older-building-analyst', 'advise', { reached: 'above', value: 9, source: bands }),
  room('older-building-analyst', 'stop-work', {
    reached: 'above',
    value: 35,
    source: seen(
      'BPI building analyst standards, stop above 35 ppm, as at https://ro.scribd.com/document/30417750/CAZ-Test-Procedures',
    ),
  }),
  room('fuel-gas-code', 'stop-work', { reached: 'at-or-above', value: 30, source: appendixD }),
  room('bpi-1200', 'advise', { reached: 'at-or-above', value: 36, source: newer }),
  room('bpi-1200', 'stop-work', { reached: 'at-or-above', value: 70, source: newer }),
];

/** Fuel gas in the air, % of the lower explosive limit. */
export const fuelGasThresholds: readonly CombustionThreshold[] = [
  {
    id: 'fuel-gas.fuel-gas-code.stop-work',
    protocol: 'fuel-gas-code',
    reached: 'at-or-above',
    value: 20,
    unit: '% LEL',
    action: 'stop-work',
    source: appendixD,
  },
];

function room(
  protocol: CombustionThreshold['protocol'],
  action: CombustionThreshold['action'],
  rest: Pick<CombustionThreshold, 'reached' | 'value' | 'source'>,
): CombustionThreshold {
  return { id: `room-co.${protocol}.${action}`, protocol, action, unit: 'ppm', ...rest };
}
