import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inducedPressure, meanBaseline } from './baseline.ts';
import { openingFlow, orificeCoefficient, predictedPressure, requiredFreeArea } from './opening.ts';
import { magnitude, ratioToReported } from './signs.ts';

function valueOf(found: { ok: true; value: number } | { ok: false }): number {
  return found.ok ? found.value : NaN;
}

describe('opening', () => {
  // Coefficient 1.07, in² and cfm: computed independently.
  it.each([
    [60, 3, 32.3748],
    [100, 3, 53.958],
    [100, 2.5, 59.108],
    [150, 5, 62.6935],
    [1, 2.5, 0.59108],
    [1, 5, 0.417957],
  ])('needs for %s cfm at %s Pa %s in²', (flow, pressure, area) => {
    expect(valueOf(requiredFreeArea(flow, pressure))).toBeCloseTo(area, 4);
  });

  // A 30 in² gap, and the 50 in² per 100 cfm grille with and without its gap: computed independently.
  it('lets through what the vectors say', () => {
    expect(valueOf(openingFlow(30, 3))).toBeCloseTo(55.6, 2);
    expect(valueOf(openingFlow(30, 2.5))).toBeCloseTo(50.75, 2);
    expect(valueOf(openingFlow(32, 3))).toBeCloseTo(59.31, 2);
    expect(valueOf(predictedPressure(82, 100))).toBeCloseTo(1.299, 3);
    expect(valueOf(predictedPressure(50, 100))).toBeCloseTo(3.494, 3);
  });

  // 1.05708: computed independently from a discharge coefficient of 0.6 and 1.2041 kg/m³; 1.06: documentation of
  // the public data format for home energy ratings (seen).
  it('uses a coefficient within 1.5 % of physics and of the data format’s', () => {
    const squareInch = 0.0254 ** 2;
    const cfm = 0.3048 ** 3 / 60;
    const physics = (0.6 * squareInch * Math.sqrt(2 / 1.2041)) / cfm;
    expect(physics).toBeCloseTo(1.05708, 5);
    expect(Math.abs(orificeCoefficient / physics - 1)).toBeLessThan(0.015);
    expect(Math.abs(orificeCoefficient / 1.06 - 1)).toBeLessThan(0.015);
  });

  it('has three directions that agree', () => {
    const positive = fc.double({ min: 0.5, max: 500, noNaN: true });
    fc.assert(
      fc.property(positive, positive, (flow, pressure) => {
        const area = valueOf(requiredFreeArea(flow, pressure));
        expect(valueOf(predictedPressure(area, flow)) / pressure).toBeCloseTo(1, 9);
        expect(valueOf(openingFlow(area, pressure)) / flow).toBeCloseTo(1, 9);
      }),
    );
  });

  it('refuses nothing to flow through and no numbers, in words', () => {
    for (const bad of [0, -1, NaN, Infinity]) {
      expect(predictedPressure(bad, 100)).toMatchObject({
        problem: {
          path: 'freeArea',
          code: 'bad-area',
          message: `The free area is ${bad} in²; it must be above zero.`,
        },
      });
      expect(requiredFreeArea(100, bad)).toMatchObject({
        problem: {
          path: 'pressure',
          code: 'bad-pressure',
          message: `The pressure is ${bad} Pa; it must be above zero.`,
        },
      });
    }
    for (const bad of [-1, NaN, Infinity]) {
      const flow = {
        path: 'flow',
        code: 'bad-flow',
        message: `The flow is ${bad} cfm; it must be zero or more.`,
      };
      expect(predictedPressure(50, bad)).toEqual({ ok: false, problem: flow });
      expect(requiredFreeArea(bad, 3)).toEqual({ ok: false, problem: flow });
      expect(openingFlow(bad, 3)).toMatchObject({
        problem: {
          path: 'freeArea',
          code: 'bad-area',
          message: `The free area is ${bad} in²; it must be zero or more.`,
        },
      });
      expect(openingFlow(30, bad)).toMatchObject({
        problem: {
          path: 'pressure',
          code: 'bad-pressure',
          message: `The pressure is ${bad} Pa; it must be zero or more.`,
        },
      });
    }
    expect(predictedPressure(50, 0)).toEqual({ ok: true, value: 0 });
    expect(requiredFreeArea(0, 3)).toEqual({ ok: true, value: 0 });
    expect(openingFlow(0, 0)).toEqual({ ok: true, value: 0 });
  });
});

describe('signs', () => {
  it('takes the size', () => {
    expect(magnitude(-0.11)).toBe(0.11);
    expect(Object.is(magnitude(-0), 0)).toBe(true);
  });

  it('compares sizes: 0.092 is 108 % of 0.085, and a sign left out on a form does not matter', () => {
    expect(valueOf(ratioToReported(0.092, 0.085))).toBeCloseTo(1.08235, 5);
    expect(ratioToReported(-0.11, 0.11)).toEqual({ ok: true, value: 1 });
  });

  it('refuses a share of zero and no numbers', () => {
    expect(ratioToReported(0.1, 0)).toMatchObject({
      problem: {
        path: 'reported',
        code: 'zero-reported',
        message: expect.stringContaining('reported pressure is 0'),
      },
    });
    expect(ratioToReported(NaN, 1)).toMatchObject({
      problem: { path: 'measured', code: 'not-a-number', message: 'The measured pressure is not a number.' },
    });
    expect(ratioToReported(1, Infinity)).toMatchObject({
      problem: { path: 'reported', code: 'not-a-number', message: 'The reported pressure is not a number.' },
    });
  });
});

describe('baseline', () => {
  // −38.0 read with a baseline of −2.0: computed independently.
  it('is taken off with its sign', () => {
    expect(inducedPressure(-38, [-2])).toBe(-36);
    expect(inducedPressure(-50, [-2, -1])).toBe(-48.5);
    expect(inducedPressure(50, [-2])).toBe(52);
    expect(inducedPressure(50, [])).toBe(50);
    expect(Object.is(inducedPressure(-0, [0]), 0)).toBe(true);
  });

  it('is the mean of those read', () => {
    expect(meanBaseline([])).toBe(0);
    expect(meanBaseline([-1, 3])).toBe(1);
  });
});
