import { describe, expect, it } from 'vitest';
import { testDefinition } from '@countercheck/measurement';
import { guessMapping, rowsFrom } from './points.ts';

const definition = testDefinition('envelope-leakage').rows!;
const [pressure, flow] = ['housePressure', 'flow'] as const;
let n = 0;
const newId = () => `row-${++n}`;

describe('points from a manometer’s log', () => {
  it('finds the columns by their words', () => {
    const columns = ['Time', 'Fan flow (cfm)', 'House pressure (Pa)'];
    expect(guessMapping(columns, definition.fields)).toMatchObject({ [pressure]: 2, [flow]: 1 });
    expect(guessMapping(['A', 'B'], definition.fields)).toEqual({});
  });

  it('keeps each number as it was logged', () => {
    const rows = [
      ['12:00', '1250', '-50.10'],
      ['12:01', '1011,5', '−40.0'],
      ['12:02', '', '-30'],
      ['12:03', 'OL', '-20'],
    ];
    const loaded = rowsFrom({ columns: [], rows }, definition, { [pressure]: 2, [flow]: 1 }, 'us', newId);
    expect(loaded.rows.map(({ typed }) => [typed[pressure]?.text, typed[flow]?.text])).toEqual([
      ['-50.10', '1250'],
      ['-40.0', '1011.5'],
    ]);
    expect(loaded.rows.map(({ label }) => label)).toEqual(['Point 1', 'Point 2']);
    expect(loaded.skipped).toEqual([4, 5]);
  });

  it('takes no line without a column that is needed', () => {
    expect(
      rowsFrom({ columns: [], rows: [['1', '2']] }, definition, { [flow]: 0 }, 'si', newId).rows,
    ).toEqual([]);
  });
});
