import { parse } from 'csv-parse/sync';
import { expect, it } from 'vitest';
import { csvLine } from './csv.ts';

it('keeps every text as it is for whoever reads the file', () => {
  const cells = ['plain', 'with, comma', 'said "so"', 'two\nlines', '', 'Straße 7 – 25 Pa'];
  expect(parse(csvLine(cells))).toEqual([cells]);
  expect(csvLine([1.5, null, -3])).toBe('1.5,,-3\r\n');
});

it('lets no spreadsheet take a text for a formula', () => {
  for (const text of ['=1+1', '+1', '-1+2', '@SUM(A1)', '\t=1', '\r=1', '=HYPERLINK("http://x.example","y")'])
    expect(parse(csvLine([text]))).toEqual([[`'${text}`]]);
});
