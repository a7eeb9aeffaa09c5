import { describe, expect, it } from 'vitest';
import { noisyHouse } from '../testing/reference-data.ts';
import { convert } from '../units/convert.ts';
import { airViscosity, envelopeDensityCorrection, throughEnvelopeFactor } from './density-correction.ts';
import { fitEnvelopeTest } from './fit-envelope-test.ts';
import { areaPerFlow, leakageArea } from './leakage-area.ts';
import type { TestAir } from './types.ts';

const winter: TestAir = {
  form: 'ISO 9972',
  densityInside: 1.2041 * (293 / 294),
  densityOutside: 1.2041 * (293 / 273),
  temperatureInside: convert(21, 'degC', 'degF'),
  temperatureOutside: 32,
};

describe('density corrections', () => {
  // 21 °C inside and 0 °C outside: computed independently from the formulas as remembered.
  it('take a flow from the fan to the envelope', () => {
    expect(throughEnvelopeFactor('depressurise', winter.densityInside, winter.densityOutside)).toBeCloseTo(
      0.928571,
      6,
    );
    expect(throughEnvelopeFactor('pressurise', winter.densityInside, winter.densityOutside)).toBeCloseTo(
      1.076923,
      6,
    );
    // 70 °F and 20 °F in the inch-pound form: computed independently.
    expect(throughEnvelopeFactor('depressurise', 528 / 530, 528 / 480)).toBeCloseTo(0.90566, 6);
    expect(throughEnvelopeFactor('depressurise', 0, 1)).toBeNaN();
    expect(throughEnvelopeFactor('depressurise', 1, NaN)).toBeNaN();
  });

  // Air of 0 °C and 20 °C: 1.716e-5 and 1.813e-5 Pa·s by hand from the formula.
  it('know the viscosity of air', () => {
    expect(airViscosity(32) * 1e5).toBeCloseTo(1.716, 3);
    expect(airViscosity(68) * 1e5).toBeCloseTo(1.813, 3);
    expect(airViscosity(-500)).toBeNaN();
  });

  it('use the air that comes through the leaks', () => {
    const of = (direction: 'depressurise' | 'pressurise', form: TestAir['form']) => {
      const found = envelopeDensityCorrection(direction, 0.65, { ...winter, form });
      return found.ok ? found.value.toStandard : NaN;
    };
    expect(of('depressurise', 'ISO 9972')).toBeCloseTo((winter.densityOutside / 1.204) ** 0.35, 12);
    expect(of('pressurise', 'ISO 9972')).toBeCloseTo((winter.densityInside / 1.204) ** 0.35, 12);
    const viscous = (airViscosity(32) / airViscosity(68)) ** 0.3;
    expect(of('depressurise', 'E779')).toBeCloseTo((winter.densityOutside / 1.2041) ** 0.35 * viscous, 12);
    const warm = (airViscosity(winter.temperatureInside) / airViscosity(68)) ** 0.3;
    expect(of('pressurise', 'E779')).toBeCloseTo((winter.densityInside / 1.2041) ** 0.35 * warm, 12);
  });

  it('change nothing in standard air', () => {
    for (const form of ['E779', 'ISO 9972'] as const) {
      const density = { E779: 1.2041, 'ISO 9972': 1.204 }[form];
      const air = {
        form,
        densityInside: density,
        densityOutside: density,
        temperatureInside: 68,
        temperatureOutside: 68,
      };
      const found = envelopeDensityCorrection('pressurise', 0.7, air);
      expect(found).toMatchObject({ value: { throughEnvelope: 1, toStandard: 1 } });
    }
  });

  it('scale a fit and show their working', () => {
    const test = { points: noisyHouse, baselineBefore: 0, baselineAfter: 0 };
    const [plain, corrected] = [fitEnvelopeTest(test), fitEnvelopeTest({ ...test, air: winter })];
    if (!plain.ok || !corrected.ok) throw new Error('refused');
    const exponent = plain.value.directions[0]!.exponent;
    const factor = 1.076923077 * (winter.densityInside / 1.204) ** (1 - exponent);
    expect(corrected.value.directions[0]!.exponent).toBe(exponent);
    expect(corrected.value.directions[0]!.coefficientAsRead).toBe(plain.value.directions[0]!.coefficient);
    for (const key of ['coefficient', 'coefficientLow', 'coefficientHigh'] as const)
      expect(corrected.value.directions[0]![key] / plain.value.directions[0]![key]).toBeCloseTo(factor, 8);
    for (const key of ['value', 'low', 'high', 'standardUncertainty'] as const)
      expect(corrected.value.figures.flowAt50[key] / plain.value.figures.flowAt50[key]).toBeCloseTo(
        factor,
        8,
      );
    expect(corrected.value.steps.map(({ label, working }) => `${label}: ${working}`)).toEqual(
      expect.arrayContaining([
        'From the fan to the envelope, pressurised: 1.2923 / 1.2',
        'To standard air (ISO 9972), pressurised: (1.2 / 1.204)^(1 − 0.645)',
      ]),
    );
    const cold = fitEnvelopeTest({ ...test, air: { ...winter, form: 'E779', densityInside: 9 } });
    expect(cold).toMatchObject({ problem: { path: 'air', code: 'bad-density' } });
  });

  it.each([
    [{ densityInside: 0.49 }, 'bad-density'],
    [{ densityOutside: 2.01 }, 'bad-density'],
    [{ densityOutside: NaN }, 'bad-density'],
    [{ temperatureInside: -81 }, 'bad-temperature'],
    [{ temperatureOutside: 151 }, 'bad-temperature'],
  ])('refuse %o', (part, code) => {
    expect(envelopeDensityCorrection('pressurise', 0.65, { ...winter, ...part })).toMatchObject({
      problem: { code },
    });
  });
});

describe('leakageArea', () => {
  // Computed independently; 18.2 cfm at 50 Pa for each square inch is the trade's rule for exponent 0.65.
  it('meets its constants', () => {
    expect(areaPerFlow(4)).toBeCloseTo(0.283800064, 8);
    const area = leakageArea({ flow: 290.468974, pressure: 4, dischargeCoefficient: 1 });
    expect(area.ok && area.value).toBeCloseTo(82.435113, 5);
    const equivalent = leakageArea({ flow: 100, pressure: 10, dischargeCoefficient: 0.611, density: 1.2 });
    expect(equivalent.ok && equivalent.value).toBeCloseTo((100 * areaPerFlow(10, 1.2)) / 0.611, 9);
  });

  it.each([
    [{ flow: -1 }, 'bad-flow'],
    [{ flow: NaN }, 'bad-flow'],
    [{ pressure: 0 }, 'bad-pressure'],
    [{ dischargeCoefficient: 0 }, 'bad-coefficient'],
    [{ density: Infinity }, 'bad-density'],
  ])('refuses %o', (part, code) => {
    expect(leakageArea({ flow: 1, pressure: 4, dischargeCoefficient: 1, ...part })).toMatchObject({
      problem: { code },
    });
  });
});
