import { type Checked, computed, problem } from '../outcome.ts';
import { convert } from '../units/convert.ts';
import type { WorkingLine } from '../working/worked.ts';
import { plainNumber } from '../units/round.ts';
import type { Direction, TestAir } from './types.ts';

/** Standard density of each form, kg/m³ (from memory). */
const standardDensity = { E779: 1.2041, 'ISO 9972': 1.204 } as const;

/**
 * Viscosity of air, Pa·s: μ = 1.458e-6 · √T / (1 + 110.4 / T), T in kelvin. @param temperature °F, above absolute
 * zero, else NaN. Never throws. Source: Sutherland's formula in public text (seen); its use in E779 from memory.
 */
export function airViscosity(temperature: number): number {
  const kelvin = convert(temperature, 'degF', 'degC') + 273.15;
  return (1.458e-6 * Math.sqrt(kelvin)) / (1 + 110.4 / kelvin);
}

/**
 * What a flow read at the fan is multiplied by to give the flow through the envelope, because the same mass of
 * air is larger on the warm side: depressurised ρ_in / ρ_out, pressurised ρ_out / ρ_in, dimensionless.
 * @param densityInside and @param densityOutside kg/m³, above zero, else NaN. Never throws.
 * Source: ASTM E779, 9 and ISO 9972:2015, 6 (from memory).
 */
export function throughEnvelopeFactor(
  direction: Direction,
  densityInside: number,
  densityOutside: number,
): number {
  if (!(densityInside > 0 && densityOutside > 0)) return NaN;
  return direction === 'depressurise' ? densityInside / densityOutside : densityOutside / densityInside;
}

/** Corrections of one direction's flow coefficient. */
export interface EnvelopeDensityCorrection {
  /** from the fan to the envelope */
  throughEnvelope: number;
  /** from the air of the test to standard air */
  toStandard: number;
  steps: WorkingLine[];
}

/**
 * The factors that take a flow coefficient from the fan to the envelope and on to standard air, dimensionless.
 * ISO 9972: C_L = C_env · (ρ / ρ0)^(1 − n); E779: C_0 = C_env · (μ / μ0)^(2n − 1) · (ρ / ρ0)^(1 − n); ρ and μ are
 * those of the air that comes through the leaks: from outdoors when depressurised, from indoors when pressurised.
 * The exponent is taken as found; its uncertainty moves the factor by far less than a percent.
 * Problems: `bad-density`, `bad-temperature`. Never throws. Source: ASTM E779-10, 9.4 and ISO 9972:2015, 6 (both
 * from memory; no published example was found, so nothing here claims agreement with their text).
 */
export function envelopeDensityCorrection(
  direction: Direction,
  exponent: number,
  air: TestAir,
): Checked<EnvelopeDensityCorrection> {
  const refusal = airProblem(air);
  if (refusal) return refusal;
  const { form, densityInside, densityOutside } = air;
  const through = throughEnvelopeFactor(direction, densityInside, densityOutside);
  const fromOutside = direction === 'depressurise';
  const density = fromOutside ? densityOutside : densityInside;
  const byDensity = (density / standardDensity[form]) ** (1 - exponent);
  const viscosity = airViscosity(fromOutside ? air.temperatureOutside : air.temperatureInside);
  const byViscosity = form === 'E779' ? (viscosity / airViscosity(68)) ** (2 * exponent - 1) : 1;
  const [over, under] = fromOutside ? [densityInside, densityOutside] : [densityOutside, densityInside];
  const densityWords = `(${plainNumber(density, 4)} / ${standardDensity[form]})^(1 − ${plainNumber(exponent)})`;
  const viscosityWords = `(${(viscosity * 1e6).toFixed(2)} / ${(airViscosity(68) * 1e6).toFixed(2)} μPa·s)^(2 × ${plainNumber(exponent)} − 1) × `;
  return computed({
    throughEnvelope: through,
    toStandard: byDensity * byViscosity,
    steps: [
      {
        label: 'From the fan to the envelope',
        working: `${plainNumber(over, 4)} / ${plainNumber(under, 4)}`,
        value: through,
        unit: '1',
      },
      {
        label: `To standard air (${form})`,
        working: `${form === 'E779' ? viscosityWords : ''}${densityWords}`,
        value: byDensity * byViscosity,
        unit: '1',
      },
    ],
  });
}

/** The problem of air that no test is done in, or null. Never throws. */
function airProblem(air: TestAir): ReturnType<typeof problem> | null {
  for (const density of [air.densityInside, air.densityOutside]) {
    if (!(density >= 0.5 && density <= 2))
      return problem(
        'air',
        'bad-density',
        `A density of ${density} kg/m³ is not that of air at a house; 0.5 to 2.`,
      );
  }
  for (const temperature of [air.temperatureInside, air.temperatureOutside]) {
    if (!(temperature >= -80 && temperature <= 150))
      return problem(
        'air',
        'bad-temperature',
        `A temperature of ${temperature} °F is outside −80 to 150 °F.`,
      );
  }
  return null;
}
