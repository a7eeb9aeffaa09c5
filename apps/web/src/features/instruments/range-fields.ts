import type { Instrument } from '@countercheck/contracts';
import { readTable, tableText, type TableUnits } from './table/table-text.ts';

type Range = Instrument['calibrations'][number]['ranges'][number];

/** A range as it is entered: by its coefficients, or by lines of a table in the maker's units. */
export interface RangeFields {
  range: string;
  by: 'coefficients' | 'table';
  c: number | null;
  n: number | null;
  minPa: number | null;
  maxPa: number | null;
  text: string;
  units: TableUnits;
}

const units: TableUnits = { pressure: 'Pa', flow: 'cfm' };

export const newRange: RangeFields = {
  ...{ range: '', by: 'coefficients', text: '', units },
  ...{ c: null, n: 0.5, minPa: 10, maxPa: 300 },
};

export const fieldsOf = ({ table, n, ...rest }: Range): RangeFields => ({
  ...rest,
  n: n ?? newRange.n,
  by: table ? 'table' : 'coefficients',
  text: tableText(table ?? []),
  units,
});

/** What is sent: a table holds as far as its rows go, since nothing is extrapolated. */
export function rangeOf({ range, by, text, units, ...coefficients }: RangeFields) {
  if (by === 'coefficients') return { range, ...coefficients, table: null };
  const { rows } = readTable(text, units);
  const pressures = rows.map(({ pressure }) => pressure);
  // Without rows there is no window either; the words about the missing rows are what helps then.
  const [minPa, maxPa] = rows.length > 1 ? [Math.min(...pressures), Math.max(...pressures)] : [0, 1];
  return { range, c: null, n: null, minPa, maxPa, table: rows };
}
