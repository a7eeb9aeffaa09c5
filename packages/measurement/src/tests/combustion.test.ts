import { describe, expect, it } from 'vitest';
import { firstMessage, outcomeOf, results } from '../testing/readings.ts';

describe('carbon monoxide in the air', () => {
  it('gives the house’s value and the outdoor one when read, without taking one off the other', () => {
    expect(results(outcomeOf('ambient-carbon-monoxide'))).toEqual({ carbonMonoxide: 2 });
    const both = outcomeOf('ambient-carbon-monoxide', {
      values: { carbonMonoxide: 100, outdoorCarbonMonoxide: 1 },
    });
    expect(results(both)).toEqual({ carbonMonoxide: 100, outdoorCarbonMonoxide: 1 });
    const u = both.ok ? both.values.map(({ standardUncertainty }) => standardUncertainty) : [];
    expect(u).toEqual([expect.closeTo(5 / Math.sqrt(3), 9), expect.closeTo(3 / Math.sqrt(3), 9)]);
  });
});

describe('spillage', () => {
  const watched = (seconds: number, vent: string, ended: string) =>
    outcomeOf('spillage', { values: { seconds }, choices: { vent, ended } }, null);

  it('gives the time under the state of the vent, with or without a stopwatch on the list', () => {
    expect(results(outcomeOf('spillage'))).toEqual({
      stillSpilling: 0,
      spillageTime: 40,
      coldVentSpillageTime: 40,
    });
    expect(results(watched(0, 'warm', 'stopped'))).toEqual({
      stillSpilling: 0,
      spillageTime: 0,
      warmVentSpillageTime: 0,
    });
    const timed = outcomeOf('spillage');
    expect(timed.ok && timed.values.map(({ standardUncertainty: u }) => u)).toEqual([
      null,
      expect.closeTo(1 / Math.sqrt(3), 9),
      expect.closeTo(1 / Math.sqrt(3), 9),
    ]);
  });

  it('gives no time while it still spills, so that a short watch cannot pass', () => {
    const outcome = watched(30, 'cold', 'still-spilling');
    expect(results(outcome)).toEqual({ stillSpilling: 1 });
    expect(outcome).toMatchObject({ remarks: ['still spilling after 30 s'], steps: [] });
  });
});

describe('depressurization', () => {
  it('is the worst case against the baseline, above zero when pulled down', () => {
    const outcome = outcomeOf('depressurization');
    expect(results(outcome)).toEqual({ depressurization: 2.5, netPressure: -2.5 });
    expect(outcome).toMatchObject({
      steps: [{ label: 'Worst case less baseline', working: '-3.7 − (-1.2)', unit: 'Pa' }],
    });
  });

  it('is below zero when the zone is pushed up, and plain zero when nothing changes', () => {
    const at = (baseline: number, worstCase: number) =>
      results(outcomeOf('depressurization', { values: { baseline, worstCase } }));
    expect(at(0, 2)).toEqual({ depressurization: -2, netPressure: 2 });
    expect(at(1, 1)).toEqual({ depressurization: 0, netPressure: 0 });
  });

  it('combines the uncertainty of two readings', () => {
    const outcome = outcomeOf('depressurization', { values: { baseline: -30, worstCase: -40 } });
    expect(outcome.ok && outcome.values[0]?.standardUncertainty).toBeCloseTo(0.5 / Math.sqrt(3), 9);
    const unknown = outcomeOf('depressurization', undefined, {
      ...{
        id: 'g',
        kind: 'manometer',
        label: 'Gauge',
        resolution: null,
        calibratedOn: null,
        dueOn: null,
        ranges: [],
      },
      accuracyPercent: 0,
      accuracyAbsolute: 0,
    });
    expect(unknown.ok && unknown.values[0]?.standardUncertainty).toBeNull();
  });
});

describe('carbon monoxide in the flue', () => {
  // 50 ppm at 9 %: computed by hand.
  it('gives it air-free and as measured', () => {
    const outcome = outcomeOf('flue-carbon-monoxide');
    expect(results(outcome)).toEqual({
      carbonMonoxideAirFree: expect.closeTo(87.815126, 6),
      carbonMonoxideAsMeasured: 50,
    });
    expect(outcome).toMatchObject({
      steps: [{ label: 'Carbon monoxide, air-free', working: '50 × 20.9 / (20.9 − 9)', unit: 'ppm' }],
    });
    const u = outcome.ok ? outcome.values.map(({ standardUncertainty }) => standardUncertainty) : [];
    expect(u).toEqual([
      expect.closeTo((10 * 20.9) / 11.9 / Math.sqrt(3), 9),
      expect.closeTo(10 / Math.sqrt(3), 9),
    ]);
  });

  it('refuses a probe in room air', () => {
    const outcome = outcomeOf('flue-carbon-monoxide', { values: { carbonMonoxide: 5, oxygen: 20.4 } });
    expect(results(outcome)).toEqual({ refused: 'values.oxygen too-diluted' });
    expect(firstMessage(outcome)).toContain('the probe draws room air');
  });

  it('leaves the uncertainty unknown when the analyser states none', () => {
    const bare = {
      id: 'a',
      kind: 'combustion-analyzer' as const,
      label: 'A',
      resolution: null,
      calibratedOn: null,
      dueOn: null,
      ranges: [],
    };
    const outcome = outcomeOf('flue-carbon-monoxide', undefined, {
      ...bare,
      accuracyPercent: 0,
      accuracyAbsolute: 0,
    });
    expect(outcome.ok && outcome.values[0]?.standardUncertainty).toBeNull();
  });
});
