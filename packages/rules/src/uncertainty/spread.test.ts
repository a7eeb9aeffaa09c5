import { describe, expect, it } from 'vitest';
import { assumedAccuracies, reportedSpread } from './reported.ts';
import { combine, exact, spreadOf } from './spread.ts';

describe('the spread of a figure', () => {
  it.each([
    [
      'twice the standard uncertainty, where nothing else is said',
      3,
      undefined,
      { standard: 3, expanded: 6 },
    ],
    ['what its degrees of freedom gave', 3, 8.4, { standard: 3, expanded: 8.4 }],
    ['nothing at all, of a figure without uncertainty', 0, undefined, { standard: 0, expanded: 0 }],
    ['nothing at all, where that is what was measured', 0, 0, { standard: 0, expanded: 0 }],
    ['twice again, where the expanded one is none', 3, -1, { standard: 3, expanded: 6 }],
    ['twice again, where the expanded one is endless', 3, Infinity, { standard: 3, expanded: 6 }],
    ['twice again, where the expanded one is not known', 3, null, { standard: 3, expanded: 6 }],
  ] as const)('at 95 %% is %s', (_what, standard, expanded, spread) => {
    expect(spreadOf(standard, expanded)).toEqual(spread);
  });

  it.each([null, undefined, -0.1, NaN, Infinity])('is not known of a standard uncertainty of %s', (none) => {
    expect(spreadOf(none)).toBeNull();
    expect(spreadOf(none, 4)).toBeNull();
  });
});

describe('the spread of a difference', () => {
  // √(3² + (2 × 2)²) = 5 and √(6² + (2 × 4)²) = 10, by hand
  it('is the root of the sum of squares, the other’s by its factor', () => {
    const found = combine({ standard: 3, expanded: 6 }, { standard: 2, expanded: 4 }, 2);
    expect(found).toEqual({ standard: 5, expanded: 10 });
    expect(combine({ standard: 3, expanded: 6 }, { standard: 2, expanded: 4 }, -2)).toEqual(found);
    expect(combine({ standard: 4, expanded: 9 }, { standard: 3, expanded: 12 }, 1)).toEqual({
      standard: 5,
      expanded: 15,
    });
  });

  it('is that of the one where the other is taken as given', () => {
    const reading = { standard: 3, expanded: 7 };
    expect(combine(reading, exact, 100)).toBe(reading);
    expect(combine(exact, reading, 1)).toEqual(reading);
    // a spread whose standard part was rounded away still counts with its expanded part
    expect(combine(reading, { standard: 0, expanded: 24 }, 1)).toEqual({ standard: 3, expanded: 25 });
  });

  it('is not known where either is not', () => {
    expect(combine(null, exact, 1)).toBeNull();
    expect(combine(exact, null, 1)).toBeNull();
    expect(combine(null, null, 1)).toBeNull();
  });
});

describe('the accuracy assumed of an installer’s instrument', () => {
  // the half-width of a rectangle: u = a / √3, U = 2u
  it.each([
    ['a large static pressure: 1 %', 'supplyStatic', 'staticPressure', 1, 0.01],
    // 0.25 Pa ÷ 249.08891 Pa per in. w.c.
    ['a small static pressure: 0.25 Pa', 'returnStatic', 'staticPressure', 0.05, 0.0010036577],
    ['a pressure with its sign: 1 % of its size', 'supplyStatic', 'staticPressure', -1, 0.01],
    ['duct leakage: 7 %', 'ductLeakageAt25', 'airflow', 100, 7],
    ['any other airflow: 10 %', 'exhaustFlow', 'airflow', 100, 10],
    ['the fan’s power: 5 %', 'fanPower', 'power', 200, 10],
  ] as const)('of %s', (_what, figure, quantity, value, halfWidth) => {
    const found = reportedSpread(figure, quantity)(value)!;
    expect(found.standard).toBeCloseTo(halfWidth / Math.sqrt(3), 9);
    expect(found.expanded).toBe(2 * found.standard);
  });

  it('is not known of other quantities, nor of a figure that is no number', () => {
    expect(reportedSpread('temperature', 'temperature')(70)).toBeNull();
    // a figure of that name but another quantity is not what the line is about
    expect(reportedSpread('ductLeakageAt25', 'power')(100)!.standard).toBeCloseTo(5 / Math.sqrt(3), 9);
    for (const none of [NaN, Infinity]) expect(reportedSpread('exhaustFlow', 'airflow')(none)).toBeNull();
  });

  it('says of each line that nobody published it', () => {
    for (const { source } of assumedAccuracies) {
      expect(source.kind).toBe('common-practice');
      expect(source.confirmed).toBe(false);
      expect(source.citation).toContain('assumed of the installer');
      expect(source.citation).toContain('common practice, no published source');
    }
  });
});
