import type { Checked } from '../outcome.ts';
import { firstProblem, oneOf, statedUncertainties, zeroOrMore } from '../working/input.ts';
import { type ByProtocol, protocols } from './by-protocol.ts';
import { type CombustionFinding, judge } from './finding.ts';
import { fuelGasThresholds, roomCarbonMonoxideThresholds } from './room-figures.ts';

/**
 * What the carbon monoxide in a room asks for, ppm: the highest reading in the house, never a mean. Under a protocol
 * whose figures are not confirmed the stops that were seen (from 30 and above 35 ppm) hold all the same.
 * Problems: `below-zero`, `unknown-choice`, `limits-not-set`, `bad-uncertainty`. Never throws.
 * Source: `roomCarbonMonoxideThresholds`; the protocols conflict (30, 35, 36, 70 ppm), and the result names those
 * that come to another action.
 */
export function judgeRoomCarbonMonoxide(
  reading: ByProtocol & { ppm: number },
): Checked<CombustionFinding<'ppm'>> {
  const { ppm, protocol, company = {}, standardUncertainty } = reading;
  const wrong = firstProblem(
    zeroOrMore('ppm', 'Carbon monoxide', ppm, 'ppm'),
    oneOf('protocol', 'The protocol', protocol, protocols),
    statedUncertainties({ ppm: standardUncertainty }),
  );
  if (wrong) return wrong;
  return judge({
    label: 'Highest carbon monoxide in the rooms',
    unit: 'ppm',
    value: ppm,
    standardUncertainty,
    protocol,
    shipped: roomCarbonMonoxideThresholds,
    company,
    always: ({ action, source }) => action === 'stop-work' && source.confirmed,
  });
}

/**
 * What fuel gas in the air asks for, % of the lower explosive limit: 20 and more is a stop under every protocol.
 * Problems: `below-zero`. Never throws. Source: IFGC Appendix D (seen), see `fuelGasThresholds`.
 */
export function judgeFuelGas(percentOfLimit: number): Checked<CombustionFinding<'% LEL'>> {
  const wrong = firstProblem(zeroOrMore('percentOfLimit', 'Fuel gas in the air', percentOfLimit, '% LEL'));
  if (wrong) return wrong;
  return judge({
    label: 'Fuel gas in the air',
    unit: '% LEL',
    value: percentOfLimit,
    standardUncertainty: null,
    protocol: 'fuel-gas-code',
    shipped: fuelGasThresholds,
    company: {},
  });
}
