import { describe, expect, it } from 'vitest';
import { firstMessage, outcomeOf, results } from '../testing/readings.ts';

describe('static pressures', () => {
  it('give the size and the reading with its sign', () => {
    expect(results(outcomeOf('supply-static'))).toEqual({ staticPressure: 0.092, signedPressure: 0.092 });
    expect(results(outcomeOf('return-static'))).toEqual({ staticPressure: 0.11, signedPressure: -0.11 });
  });

  it('carry the gauge’s uncertainty in in. w.c.', () => {
    const outcome = outcomeOf('return-static', { values: { pressure: -0.5 } });
    const expected = 0.005 / Math.sqrt(3);
    expect(outcome.ok && outcome.values.map(({ standardUncertainty }) => standardUncertainty)).toEqual([
      expect.closeTo(expected, 12),
      expect.closeTo(expected, 12),
    ]);
  });

  it('see swapped probes by the sign', () => {
    const supply = outcomeOf('supply-static', { values: { pressure: -0.092 } });
    expect(results(supply)).toEqual({ refused: 'values.pressure wrong-sign' });
    expect(firstMessage(supply)).toBe(
      'The supply static pressure is -0.092 in. w.c., but the supply side is above zero: ' +
        'the probes or the ports of the gauge look swapped. Check which hole and which port, then enter the reading with its sign.',
    );
    const back = outcomeOf('return-static', { values: { pressure: 0.11 } });
    expect(results(back)).toEqual({ refused: 'values.pressure wrong-sign' });
    expect(firstMessage(back)).toContain(
      'The return static pressure is 0.110 in. w.c., but the return side is below zero',
    );
  });

  it.each(['supply-static', 'return-static'] as const)('refuse zero for %s', (key) => {
    const outcome = outcomeOf(key, { values: { pressure: 0 } });
    expect(results(outcome)).toEqual({ refused: 'values.pressure zero-pressure' });
    expect(firstMessage(outcome)).toContain('The pressure is 0 in. w.c.: the air handler is off');
  });
});
