import { standardAirDensity } from '../air/density.ts';
import { type Checked, computed } from '../outcome.ts';
import { convert } from '../units/convert.ts';
import { plainNumber } from '../units/round.ts';
import {
  aboveZero,
  firstProblem,
  oneOf,
  statedUncertainties,
  type Uncertainties,
  zeroOrMore,
} from '../working/input.ts';
import { combined, worked, type Worked } from '../working/worked.ts';

/**
 * What a flow device senses: the pressure across an opening (fans, nozzles, plates, grids), the mass of the air
 * (heated sensors), or its volume (vanes). Each errs in its own way when the air is not that of its calibration.
 */
export type FlowSensing = 'pressure' | 'mass' | 'volume';

export interface FlowToCorrect {
  /** shown by the device, cfm */
  flow: number;
  sensing: FlowSensing;
  /** density of the air in the device, kg/m³ */
  density: number;
  /** density for which the device's figures hold, kg/m³; the standard 1.2041 when left out */
  calibrationDensity?: number;
}

export interface CorrectedFlow extends Worked<'cfm'> {
  /** the same mass as a volume of air of 1.2041 kg/m³, cfm */
  standardFlow: number;
  /** kg/s */
  massFlow: number;
}

// How strongly the density of the air enters the volume flow: Q · (ρcal / ρ)^power.
const powers: Record<FlowSensing, number> = { pressure: 0.5, mass: 1, volume: 0 };

/**
 * The volume of air that went through a flow device, cfm at the density it had there, from what the device shows:
 * pressure-based Q·√(ρcal / ρ); mass-based Q·ρcal / ρ; volume-based Q. Beside it the mass flow ρ·Q and that mass as
 * a volume of standard air. Which of the three a limit is meant in has to be said by the limit.
 * The square root holds where flow goes with the root of the pressure (n = 0.5); a device with another exponent is
 * corrected only nearly.
 * @param uncertainties standard, of `flow` (cfm) and `density` (kg/m³); the result's is null when one is left out
 * Problems: `below-zero`, `not-above-zero`, `unknown-choice`, `bad-uncertainty`. Never throws.
 * Source: ΔP = ρ·v² / 2 (physics); that altitude and temperature can falsify a reading by up to 15 % is seen in
 * California RA3.3 (docs/sources.md, Measurement 10).
 */
export function correctForDensity(
  input: FlowToCorrect,
  uncertainties: Uncertainties<'flow' | 'density'> = {},
): Checked<CorrectedFlow> {
  const { flow, sensing, density, calibrationDensity = standardAirDensity } = input;
  const refusal = firstProblem(
    zeroOrMore('flow', 'The flow', flow, 'cfm'),
    aboveZero('density', 'The density of the air', density, 'kg/m³'),
    aboveZero('calibrationDensity', 'The density of the calibration', calibrationDensity, 'kg/m³'),
    oneOf('sensing', 'What the device senses', sensing, Object.keys(powers)),
    statedUncertainties(uncertainties),
  );
  if (refusal) return refusal;
  const power = powers[sensing];
  const volume = flow * (calibrationDensity / density) ** power;
  const standardFlow = (volume * density) / standardAirDensity;
  const massFlow = (convert(volume, 'cfm', 'L/s') / 1000) * density;
  const u = combined([
    [(calibrationDensity / density) ** power, uncertainties.flow],
    [(power * volume) / density, uncertainties.density],
  ]);
  const ratio = `${plainNumber(calibrationDensity, 4)} / ${plainNumber(density, 4)}`;
  const factor = { pressure: ` × √(${ratio})`, mass: ` × ${ratio}`, volume: '' }[sensing];
  const [shown, moved] = [plainNumber(flow), plainNumber(volume)];
  const steps = [
    { label: 'Flow at the density of the air', working: `${shown}${factor}`, value: volume, unit: 'cfm' },
    {
      label: 'Mass flow',
      working: `${moved} cfm × ${plainNumber(density, 4)} kg/m³`,
      value: massFlow,
      unit: 'kg/s',
    },
    {
      label: 'Flow of standard air',
      working: `${moved} × ${plainNumber(density, 4)} / ${standardAirDensity}`,
      value: standardFlow,
      unit: 'cfm',
    },
  ];
  return computed({ ...worked('cfm', volume, u, steps), standardFlow, massFlow });
}
