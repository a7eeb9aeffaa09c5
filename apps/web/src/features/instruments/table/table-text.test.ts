import { expect, it } from 'vitest';
import { readTable, tableText, type TableUnits } from './table-text.ts';

const own: TableUnits = { pressure: 'Pa', flow: 'cfm' };
const pairs = (text: string, units = own) =>
  readTable(text, units).rows.map(({ pressure, flow }) => [pressure, flow]);

it.each([
  ['tabs, as a sheet pastes them, under a line of words', 'Pressure\tFlow\r\n10\t16.2\r\n25\t25.4\r\n'],
  ['spaces', '10 16.2\n\n  25   25.4 '],
  ['commas', '10,16.2\n25, 25.4'],
  ['semicolons and decimal commas', '10;16,2\n25 ; 25,4'],
  ['spaces and decimal commas', '10 16,2\n25 25,4'],
])('reads %s', (_, text) => {
  expect(pairs(text)).toEqual([
    [10, 16.2],
    [25, 25.4],
  ]);
  expect(readTable(text, own).problem).toBeNull();
});

it('takes the units that the maker used', () => {
  // 0.1 in. w.c. = 24.91 Pa; 47.19 L/s and 169.9 m³/h = 100 cfm
  const [pressure, flow] = pairs('0.1 47.19474', { pressure: 'inH2O', flow: 'L/s' })[0]!;
  expect(pressure).toBeCloseTo(24.909, 3);
  expect(flow).toBeCloseTo(100, 4);
  expect(pairs('1 169.9011', { pressure: 'Pa', flow: 'm3/h' })[0]![1]).toBeCloseTo(100, 4);
});

it.each([
  ['10 16.2\n25', 'Line 2, “25”: It has 1 entry'],
  ['10 16.2 3', 'It has 3 entries'],
  ['10 16.2\n25 about', 'Line 2, “25 about”: "about" is not a number'],
  ['10 1,300', 'Line 1, “10 1,300”: "1,300" could be 1300 or a decimal'],
])('says which line of %j cannot be read, and lets nothing of it pass as a row', (text, words) => {
  const { rows, problem } = readTable(text, own);
  expect(problem).toContain(words);
  expect(rows.at(-1)).toEqual({ pressure: Number.NaN, flow: Number.NaN });
});

it('writes rows that it reads back', () => {
  const rows = [
    { pressure: 24.908891, flow: 100 },
    { pressure: 60, flow: 161.25 },
  ];
  expect(readTable(tableText(rows), own).rows).toEqual(rows);
  expect(readTable('', own)).toEqual({ rows: [], problem: null });
});
