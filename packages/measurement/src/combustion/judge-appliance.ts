import type { Checked } from '../outcome.ts';
import { finite, firstProblem, oneOf, statedUncertainties, zeroOrMore } from '../working/input.ts';
import { gaveWorked, worked } from '../working/worked.ts';
import { depressurizationThresholds, flueCarbonMonoxideThresholds } from './appliance-figures.ts';
import { spillageThresholds, stillSpilling } from './appliance-figures.ts';
import { type ByProtocol, protocols } from './by-protocol.ts';
import { type CombustionFinding, judge } from './finding.ts';
import { combustionCaution, type CombustionProtocol } from './thresholds.ts';

/**
 * Whether the carbon monoxide in an appliance's flue gas asks for service, ppm. A figure holds for one basis:
 * air-free (of `airFreeCarbonMonoxide`) or as measured; the other is refused.
 * @param reading `appliance` as in `flueCarbonMonoxideThresholds`, e.g. `furnace`, `water-heater`, `oven`
 * Problems: `below-zero`, `unknown-choice`, `limits-not-set` (no usable figure for this appliance, basis and
 * protocol), `bad-uncertainty`. Never throws. Source: `flueCarbonMonoxideThresholds`.
 */
export function judgeFlueCarbonMonoxide(
  reading: ByProtocol & { appliance: string; ppm: number; basis: 'air-free' | 'as-measured' },
): Checked<CombustionFinding<'ppm'>> {
  const { appliance, ppm, basis, protocol, company = {}, standardUncertainty } = reading;
  const wrong = firstProblem(
    zeroOrMore('ppm', 'Carbon monoxide in the flue gas', ppm, 'ppm'),
    oneOf('protocol', 'The protocol', protocol, protocols),
    oneOf('basis', 'The basis', basis, ['air-free', 'as-measured']),
    statedUncertainties({ ppm: standardUncertainty }),
  );
  if (wrong) return wrong;
  const own = company.own?.filter((figure) => figure.of === appliance && figure.basis === basis) ?? [];
  return judge({
    label: `Carbon monoxide in the flue gas, ${basis}`,
    unit: 'ppm',
    value: ppm,
    standardUncertainty,
    protocol,
    shipped: flueCarbonMonoxideThresholds.filter((one) => one.of === appliance && one.basis === basis),
    company: { ...company, own },
  });
}

/**
 * Whether flue gas stops coming out of a draft hood in time, s from lighting. What still spills at the end of the
 * watch is a stop under every protocol, whatever the time.
 * Problems: `below-zero`, `unknown-choice`, `limits-not-set`, `bad-uncertainty`. Never throws.
 * Source: `spillageThresholds`; the stop is common practice, no published source.
 */
export function judgeSpillage(
  reading: ByProtocol & { seconds: number; ended: 'stopped' | 'still-spilling'; vent: 'cold' | 'warm' },
): Checked<CombustionFinding<'s'>> {
  const { seconds, ended, vent, protocol, company = {}, standardUncertainty } = reading;
  const wrong = firstProblem(
    zeroOrMore('seconds', 'The time', seconds, 's'),
    oneOf('ended', 'How the watch ended', ended, ['stopped', 'still-spilling']),
    oneOf('vent', 'The vent', vent, ['cold', 'warm']),
    oneOf('protocol', 'The protocol', protocol, protocols),
    statedUncertainties({ seconds: standardUncertainty }),
  );
  if (wrong) return wrong;
  if (ended === 'still-spilling') return stillSpillingAfter(seconds, protocol);
  const own = company.own?.filter((figure) => figure.of === vent) ?? [];
  return judge({
    label: `Time until spillage stopped, ${vent} vent`,
    unit: 's',
    value: seconds,
    standardUncertainty,
    protocol,
    shipped: spillageThresholds.filter((one) => one.of === vent),
    company: { ...company, own },
  });
}

function stillSpillingAfter(seconds: number, protocol: CombustionProtocol): Checked<CombustionFinding<'s'>> {
  const step = { label: 'Still spilling after', working: String(seconds), value: seconds, unit: 's' };
  return gaveWorked(worked('s', seconds, null, [step], [`still spilling after ${seconds} s`]), {
    protocol,
    action: 'stop-work' as const,
    threshold: stillSpilling,
    conflicts: [],
    caution: combustionCaution,
  });
}

/**
 * Whether a combustion zone is pulled down too far, Pa (`worstCaseDepressurization`; below zero is pushed up).
 * All shipped figures are remembered only, so without the company's word the answer is `limits-not-set`.
 * @param reading `venting` as in `depressurizationThresholds`, e.g. `water-heater-alone`, `direct-or-sealed`
 * Problems: `not-a-number`, `unknown-choice`, `limits-not-set`, `bad-uncertainty`. Never throws.
 * Source: older tables, from memory; that about 5 Pa can spill natural draft was seen in a public copy of
 * gas-technician training text, Unit 22.
 */
export function judgeDepressurization(
  reading: ByProtocol & { depressurization: number; venting: string },
): Checked<CombustionFinding<'Pa'>> {
  const { depressurization, venting, protocol, company = {}, standardUncertainty } = reading;
  const wrong = firstProblem(
    finite('depressurization', 'The depressurization', depressurization, 'Pa'),
    oneOf('protocol', 'The protocol', protocol, protocols),
    statedUncertainties({ depressurization: standardUncertainty }),
  );
  if (wrong) return wrong;
  const own = company.own?.filter((figure) => figure.of === venting) ?? [];
  return judge({
    label: 'Depressurization of the combustion zone',
    unit: 'Pa',
    value: depressurization,
    standardUncertainty,
    protocol,
    shipped: depressurizationThresholds.filter((one) => one.of === venting),
    company: { ...company, own },
  });
}
