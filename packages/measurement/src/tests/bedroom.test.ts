import { describe, expect, it } from 'vitest';
import { firstMessage, outcomeOf, results } from '../testing/readings.ts';

describe('bedroom pressure', () => {
  it('gives the size and the reading with its sign; zero is a good reading', () => {
    expect(results(outcomeOf('bedroom-pressure'))).toEqual({ pressure: 2.4, signedPressure: 2.4 });
    expect(results(outcomeOf('bedroom-pressure', { values: { pressure: -3.1 } }))).toEqual({
      pressure: 3.1,
      signedPressure: -3.1,
    });
    expect(results(outcomeOf('bedroom-pressure', { values: { pressure: -0 } }))).toEqual({
      pressure: 0,
      signedPressure: 0,
    });
  });

  it('carries the gauge’s uncertainty', () => {
    const outcome = outcomeOf('bedroom-pressure');
    expect(outcome.ok && outcome.values[0]?.standardUncertainty).toBeCloseTo(0.25 / Math.sqrt(3), 12);
    expect(outcome.ok && outcome.values[1]?.standardUncertainty).toBeCloseTo(0.25 / Math.sqrt(3), 12);
  });
});

describe('bedroom relief', () => {
  // 50 in² and a 32 in. gap of 1 in. at 100 cfm make 1.299 Pa: computed independently.
  it('adds the openings and predicts the pressure', () => {
    const outcome = outcomeOf('bedroom-relief');
    expect(results(outcome)).toEqual({
      freeArea: 82,
      freeAreaPerFlow: 0.82,
      predictedPressure: expect.closeTo(1.299, 3),
      supplyFlow: 100,
    });
    expect(
      outcome.ok && outcome.steps.map(({ label, working, unit }) => `${label}: ${working} [${unit}]`),
    ).toEqual([
      'Free area of Over the door: 50 in² as entered [in2]',
      'Free area of Opening 2: 32 in. × 1 in. [in2]',
      'Free area per supply flow: 82 / 100 [in2/cfm]',
      'Predicted pressure: (100 / (1.07 × 82))^2 [Pa]',
    ]);
    expect(outcome.ok && outcome.steps.map(({ value }) => value)).toEqual([
      50,
      32,
      0.82,
      expect.closeTo(1.299, 3),
    ]);
  });

  // A flow wrong by 5 % makes the area per flow wrong by 5 % and the pressure by 10 %.
  it('carries the hood’s uncertainty into what follows from the flow', () => {
    const outcome = outcomeOf('bedroom-relief');
    const shares = outcome.ok
      ? outcome.values.map(({ value, standardUncertainty: u }) => u && (u / value) * Math.sqrt(3))
      : [];
    expect(shares).toEqual([null, expect.closeTo(0.05, 9), expect.closeTo(0.1, 9), expect.closeTo(0.05, 9)]);
  });

  it('leaves the uncertainty unknown when the hood states none', () => {
    const unknown = outcomeOf('bedroom-relief', undefined, {
      ...{
        id: 'h',
        kind: 'flow-hood',
        label: 'Hood',
        resolution: null,
        calibratedOn: null,
        dueOn: null,
        ranges: [],
      },
      accuracyPercent: 0,
      accuracyAbsolute: 0,
    });
    expect(unknown.ok && unknown.values.map(({ standardUncertainty }) => standardUncertainty)).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });

  it.each([
    ['grille', { width: 12, height: 6 }, 'rows.0.values.freeArea gross-size', 'its outer size says too much'],
    ['grille', { width: 12 }, 'rows.0.values.freeArea gross-size', 'Enter the free area'],
    ['jumper-duct', { height: 12 }, 'rows.0.values.freeArea gross-size', 'Enter the free area'],
    ['jumper-duct', {}, 'rows.0.values.freeArea missing', 'Enter the free area'],
    ['door-undercut', { width: 32 }, 'rows.0.values.height missing', 'The height of the gap is missing.'],
    ['door-undercut', { height: 1 }, 'rows.0.values.width missing', 'The width of the gap is missing.'],
    ['door-undercut', { freeArea: 30, height: 1 }, 'rows.0.values.freeArea entered-twice', 'both entered'],
    ['door-undercut', { freeArea: 30, width: 1 }, 'rows.0.values.freeArea entered-twice', 'both entered'],
  ])('refuses a %s with %o', (kind, values, refused, words) => {
    const rows = [{ values: values as Record<string, number>, choices: { kind } }];
    const outcome = outcomeOf('bedroom-relief', { values: { supplyFlow: 100 }, rows });
    expect(results(outcome)).toEqual({ refused });
    expect(firstMessage(outcome)).toContain(words);
  });

  it('takes the free area of a gap under a door too', () => {
    const rows = [{ values: { freeArea: 30 }, choices: { kind: 'door-undercut' } }];
    expect(results(outcomeOf('bedroom-relief', { values: { supplyFlow: 60 }, rows }))).toMatchObject({
      freeArea: 30,
    });
  });
});
