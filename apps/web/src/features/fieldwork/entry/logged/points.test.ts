import { describe, expect, it } from 'vitest';
import { testDefinition } from '@countercheck/measurement';
import { delimiterOf, guessMapping, logIn, rowsFrom } from './points.ts';

const definition = testDefinition('envelope-leakage').rows!;
const [pressure, flow] = ['housePressure', 'flow'] as const;
let n = 0;
const log = (rows: string[][], comma: 'decimal' | 'thousands' = 'thousands') => ({
  ...{ columns: [], rows, comma, headLine: 1 },
});
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
      ['12:01', '1011.5', '−40.0'],
      ['12:02', '', '-30'],
      ['12:03', 'OL', '-20'],
      ['12:04', 'A12', '-20'],
    ];
    const loaded = rowsFrom(log(rows), definition, { [pressure]: 2, [flow]: 1 }, 'us', newId);
    expect(loaded.rows.map(({ typed }) => [typed[pressure]?.text, typed[flow]?.text])).toEqual([
      ['-50.10', '1250'],
      ['-40.0', '1011.5'],
    ]);
    expect(loaded.rows.map(({ label }) => label)).toEqual(['Point 1', 'Point 2']);
    expect(loaded.skipped).toEqual([4, 5, 6]);
  });

  it('takes no line without a column that is needed', () => {
    expect(rowsFrom(log([['1', '2']]), definition, { [flow]: 0 }, 'si', newId).rows).toEqual([]);
  });

  it('reads a comma as the whole file means it, and never makes a thousand into one', () => {
    const typed = (rows: string[][], comma: 'decimal' | 'thousands') =>
      rowsFrom(log(rows, comma), definition, { [pressure]: 1, [flow]: 0 }, 'us', newId).rows.map(
        (row) => row.typed[flow]?.text,
      );
    expect(
      typed(
        [
          ['1,250', '-50'],
          ['1,011.5', '-40'],
          ['10,5', '-30'],
        ],
        'thousands',
      ),
    ).toEqual(['1250', '1011.5']);
    expect(
      typed(
        [
          ['1011,5', '-50,1'],
          ['1.011,5', '-40'],
        ],
        'decimal',
      ),
    ).toEqual(['1011.5']);
    const found = (text: string) => {
      const delimiter = delimiterOf(text);
      return logIn(
        text.split('\n').map((line) => line.split(delimiter)),
        delimiter,
      )?.comma;
    };
    expect(found('Flow;Pressure\n1011,5;-50,1')).toBe('decimal');
    expect(found('Flow;Pressure\n1,250;-50.1')).toBe('thousands');
    expect(found('Flow,Pressure\n1250,-50')).toBe('thousands');
  });

  it('finds the log under what a file says of itself, and names lines by their place in it', () => {
    const lines = [
      ['Log of', 'Monday'],
      ['Serial', 'M-17'],
      [''],
      ['Flow', 'Pressure'],
      ['1250', '-50'],
      ['x', '-40'],
    ];
    const found = logIn(lines, ',')!;
    expect(found).toMatchObject({ columns: ['Flow', 'Pressure'], headLine: 4 });
    expect(rowsFrom(found, definition, { [pressure]: 1, [flow]: 0 }, 'us', newId)).toMatchObject({
      rows: [{ typed: { [pressure]: { text: '-50' } } }],
      skipped: [6],
    });
    expect(
      logIn(
        [
          ['Flow', 'Pressure'],
          ['none', 'none'],
        ],
        ',',
      ),
    ).toBeNull();
    expect(logIn([['12', '-50']], ',')).toBeNull();
  });
});
