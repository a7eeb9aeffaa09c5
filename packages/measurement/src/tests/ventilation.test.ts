import { describe, expect, it } from 'vitest';
import { outcomeOf, results } from '../testing/readings.ts';

describe('whole-house ventilation', () => {
  const row = (airstream: string, flow: number) => ({ values: { flow }, choices: { airstream } });

  it('adds the terminals of each airstream', () => {
    const outcome = outcomeOf('whole-house-ventilation');
    expect(results(outcome)).toEqual({ supplyFlow: 71, exhaustFlow: 73 });
    expect(outcome).toMatchObject({
      steps: [
        { label: 'Supply flow', working: '71', value: 71 },
        { label: 'Exhaust flow', working: '40 + 33', value: 73 },
      ],
    });
  });

  it('does not give an airstream that was not measured', () => {
    expect(results(outcomeOf('whole-house-ventilation', { rows: [row('exhaust', 60)] }))).toEqual({
      exhaustFlow: 60,
    });
    expect(results(outcomeOf('whole-house-ventilation', { rows: [row('supply', 60)] }))).toEqual({
      supplyFlow: 60,
    });
  });

  it('adds the errors of one meter', () => {
    const outcome = outcomeOf('whole-house-ventilation');
    expect(outcome.ok && outcome.values[1]?.standardUncertainty).toBeCloseTo(7.3 / Math.sqrt(3), 9);
  });
});

describe.each(['kitchen-exhaust', 'bath-exhaust'] as const)('%s', (key) => {
  const inlet = (flow: number) => ({ values: { flow }, choices: { deviceRange: 'widest' } });

  // Two inlets of one fan add: common practice, no published source.
  it('adds the inlets and gives them under the way the fan runs', () => {
    const rows = [inlet(56), inlet(50)];
    const outcome = outcomeOf(key, { choices: { mode: 'intermittent' }, rows });
    expect(results(outcome)).toEqual({ flow: 106, intermittentFlow: 106 });
    expect(outcome).toMatchObject({
      steps: [{ label: 'Exhaust flow', working: '56 + 50', value: 106, unit: 'cfm' }],
    });
    expect(outcome.ok && outcome.values[1]?.standardUncertainty).toBeCloseTo(10.6 / Math.sqrt(3), 9);
    expect(results(outcomeOf(key, { choices: { mode: 'continuous' }, rows }))).toEqual({
      flow: 106,
      continuousFlow: 106,
    });
  });

  it('asks for the range setting of the flow device', () => {
    const rows = [{ values: { flow: 50 } }];
    expect(results(outcomeOf(key, { choices: { mode: 'intermittent' }, rows }))).toEqual({
      refused: 'rows.0.choices.deviceRange missing',
    });
    for (const deviceRange of ['widest', 'middle', 'narrowest', 'single']) {
      const settled = [{ values: { flow: 50 }, choices: { deviceRange } }];
      expect(results(outcomeOf(key, { choices: { mode: 'continuous' }, rows: settled }))).toMatchObject({
        flow: 50,
      });
    }
  });
});
