import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { opened, refusedWith } from '../testing/opened.ts';
import { intermittentEffectiveness, intermittentFlow } from './effectiveness.ts';
import { intermittentFactor, intermittentFactors, intermittentRate } from './intermittent.ts';

const rate = { value: 60, form: 'inch-pound' } as const;

describe('factor for intermittent operation', () => {
  // IRC Table M1505.4.3(2), seen at https://up.codes/s/whole-house-mechanical-ventilation-system
  it.each([
    [0.25, 4],
    [0.33, 3],
    [0.5, 2],
    [0.66, 1.5],
    [0.75, 1.3],
    [1, 1],
  ])('is at a share of %s the table’s %s', (share, factor) => {
    const found = opened(intermittentFactor(share));
    expect(found).toMatchObject({ value: factor, unit: '1', remarks: [] });
    expect(found.steps[0]?.working).toBe(`row of ${share * 100} %`);
    expect(opened(intermittentRate(rate, share)).value).toBeCloseTo(60 * factor, 9);
  });

  it('is interpolated between rows and says so', () => {
    const found = opened(intermittentFactor(0.6));
    expect(found.value).toBeCloseTo(1.6875, 9);
    expect(found.remarks).toEqual(['interpolated between the rows of 50 and 66 %']);
    expect(found.steps[0]?.working).toBe('2 + 0.625 × (1.5 − 2)');
  });

  it('is never extrapolated', () => {
    expect(refusedWith(intermittentFactor(0.2))).toBe('below-table at runShare');
    expect(intermittentFactor(0.2)).toMatchObject({ problem: { message: expect.stringContaining('20 %') } });
    for (const share of [0, -0.1, 1.01, NaN])
      expect(refusedWith(intermittentFactor(share))).toBe('bad-share at runShare');
    expect(refusedWith(intermittentRate(rate, 0.1))).toBe('below-table at runShare');
  });

  it('falls with the share and makes at least the continuous amount of air', () => {
    const shares = fc.double({ min: 0.25, max: 1, noNaN: true });
    fc.assert(
      fc.property(shares, shares, (a, b) => {
        const [less, more] = a < b ? [a, b] : [b, a];
        const [high, low] = [opened(intermittentFactor(less)).value, opened(intermittentFactor(more)).value];
        expect(high).toBeGreaterThanOrEqual(low);
        // 0.33 × 3 and 0.66 × 1.5 are 0.99, 0.75 × 1.3 is 0.975: the table is rounded.
        expect(less * high).toBeGreaterThanOrEqual(0.975 - 1e-9);
      }),
    );
    expect(intermittentFactors.source.confirmed).toBe(true);
  });

  it('keeps form, unit and uncertainty of the rate', () => {
    const found = opened(intermittentRate({ value: 40, form: 'si', standardUncertainty: 2 }, 0.5));
    expect(found).toMatchObject({ value: 80, unit: 'L/s', form: 'si', standardUncertainty: 4 });
    expect(found.equation).toBe('IRC Table M1505.4.3(2) (si)');
    expect(found.steps.map(({ working }) => working)).toEqual(['row of 50 %', '40 × 2']);
    expect(refusedWith(intermittentRate({ value: 0, form: 'si' }, 0.5))).toBe('not-above-zero at rate');
    expect(refusedWith(intermittentRate({ value: 1, form: 'metric' as 'si' }, 0.5))).toBe(
      'unknown-choice at rate.form',
    );
    expect(refusedWith(intermittentRate({ value: 1, form: 'si', standardUncertainty: -1 }, 0.5))).toBe(
      'bad-uncertainty at uncertainties.rate',
    );
  });
});

/** Mean concentration of a well-mixed room over a settled cycle, stepped in time; source strength 1 per hour. */
function simulated(runShare: number, cycleHours: number, airChanges: number): number {
  const steps = 4000;
  const dt = cycleHours / steps;
  let concentration = 1 / (runShare * airChanges);
  let mean = 0;
  for (let cycle = 0; cycle < 60; cycle += 1) {
    mean = 0;
    for (let step = 0; step < steps; step += 1) {
      const flow = step < runShare * steps ? airChanges : 0;
      // Implicit midpoint: second order, and stable for any step.
      const next = (concentration * (1 - (flow * dt) / 2) + dt) / (1 + (flow * dt) / 2);
      mean += (concentration + next) / 2 / steps;
      concentration = next;
    }
  }
  return 1 / mean / (runShare * airChanges);
}

describe('effectiveness of intermittent operation', () => {
  it.each([
    [0.5, 4, 0.7],
    [0.25, 4, 1.4],
    [0.75, 24, 0.5],
    [0.5, 24, 1],
  ])(
    'agrees at a share of %s of %s h and %s air changes with a room stepped through time',
    (f, hours, changes) => {
      const cycle = { runShare: f, cycleHours: hours, airChangesRunning: changes };
      expect(opened(intermittentEffectiveness(cycle)).value).toBeCloseTo(simulated(f, hours, changes), 5);
    },
  );

  it('is 1 without a pause and near 1 for short cycles', () => {
    const always = { runShare: 1, cycleHours: 4, airChangesRunning: 0.35 };
    expect(opened(intermittentEffectiveness(always)).value).toBe(1);
    expect(
      opened(intermittentEffectiveness({ ...always, runShare: 0.5, cycleHours: 1e-6 })).value,
    ).toBeCloseTo(1, 6);
  });

  it('lies between 0 and 1, falls with the cycle and the rate', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.double({ min: 0.1, max: 48, noNaN: true }),
        fc.double({ min: 0.05, max: 5, noNaN: true }),
        (runShare, cycleHours, airChangesRunning) => {
          const at = (hours: number, changes: number) =>
            opened(intermittentEffectiveness({ runShare, cycleHours: hours, airChangesRunning: changes }))
              .value;
          const here = at(cycleHours, airChangesRunning);
          expect(here).toBeGreaterThan(0);
          expect(here).toBeLessThanOrEqual(1);
          expect(at(cycleHours * 2, airChangesRunning)).toBeLessThanOrEqual(here + 1e-9);
          expect(at(cycleHours, airChangesRunning * 2)).toBeLessThanOrEqual(here + 1e-9);
        },
      ),
    );
  });

  it('shows the working', () => {
    const found = opened(intermittentEffectiveness({ runShare: 0.5, cycleHours: 4, airChangesRunning: 0.7 }));
    expect(found.steps[0]).toMatchObject({ working: '4 / (0.5 × (6 + 2.316))', unit: '1' });
  });

  it('gives the flow that counts as much: 60 at half the time and 0.8 is 150', () => {
    const found = opened(intermittentFlow({ ...rate, standardUncertainty: 2 }, 0.5, 0.8));
    expect(found.value).toBeCloseTo(150, 9);
    expect(found).toMatchObject({ unit: 'cfm', form: 'inch-pound', standardUncertainty: 5 });
    expect(found.equation).toContain('from memory (inch-pound)');
    expect(found.steps[0]?.working).toBe('60 / (0.8 × 0.5)');
  });

  it('refuses what cannot be', () => {
    const cycle = { runShare: 0.5, cycleHours: 4, airChangesRunning: 0.7 };
    expect(refusedWith(intermittentEffectiveness({ ...cycle, runShare: 0 }))).toBe('bad-share at runShare');
    expect(refusedWith(intermittentEffectiveness({ ...cycle, cycleHours: 0 }))).toBe(
      'not-above-zero at cycleHours',
    );
    expect(refusedWith(intermittentEffectiveness({ ...cycle, airChangesRunning: -1 }))).toBe(
      'not-above-zero at airChangesRunning',
    );
    expect(refusedWith(intermittentFlow({ ...rate, value: NaN }, 0.5, 1))).toBe('not-above-zero at rate');
    expect(refusedWith(intermittentFlow(rate, 0, 1))).toBe('bad-share at runShare');
    expect(refusedWith(intermittentFlow(rate, 0.5, 1.1))).toBe('bad-share at effectiveness');
  });
});
