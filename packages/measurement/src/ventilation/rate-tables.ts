import { type Checked, computed, problem } from '../outcome.ts';
import { type FigureSource, fromMemory, seen } from '../working/figure-source.ts';
import { aboveZero, count, firstProblem } from '../working/input.ts';

/** A rate read from a table: where it stands and how sure its figures are. */
export interface TableRate {
  value: number;
  unit: 'cfm';
  form: 'inch-pound';
  /** the row and column in words, e.g. `1,501 to 3,000 ft², 2 to 3 bedrooms` */
  cell: string;
  source: FigureSource;
}

/** A table of rates: a row up to each floor area (ft², included), a column up to each number of bedrooms. */
export interface RateTable {
  upToArea: readonly number[];
  upToBedrooms: readonly number[];
  /** cfm, rows of the same length as `upToBedrooms` */
  rates: readonly (readonly number[])[];
  source: FigureSource;
}

/** IRC Table M1505.4.3(1), the table of 62.2-2010. The row "< 1,500" is taken to hold 1,500 itself. */
export const ircRateTable: RateTable = {
  upToArea: [1500, 3000, 4500, 6000, 7500, Infinity],
  upToBedrooms: [1, 3, 5, 7, Infinity],
  rates: [
    [30, 45, 60, 75, 90],
    [45, 60, 75, 90, 105],
    [60, 75, 90, 105, 120],
    [75, 90, 105, 120, 135],
    [90, 105, 120, 135, 150],
    [105, 120, 135, 150, 165],
  ],
  source: seen(
    'IRC Table M1505.4.3(1), as quoted at https://up.codes/s/whole-house-mechanical-ventilation-system',
  ),
};

/** Table 4.1a of 62.2-2013 and 2016, for 1 to 5 bedrooms and up to 5,000 ft². */
export const rateTable2013: RateTable = {
  upToArea: [500, 1000, 1500, 2000, 2500, 3000, 3500, 4000, 4500, 5000],
  upToBedrooms: [1, 2, 3, 4, 5],
  rates: [
    [30, 38, 45, 53, 60],
    [45, 53, 60, 68, 75],
    [60, 68, 75, 83, 90],
    [75, 83, 90, 98, 105],
    [90, 98, 105, 113, 120],
    [105, 113, 120, 128, 135],
    [120, 128, 135, 143, 150],
    [135, 143, 150, 158, 165],
    [150, 158, 165, 173, 180],
    [165, 173, 180, 188, 195],
  ],
  source: fromMemory('ASHRAE 62.2-2013 and 2016, Table 4.1a'),
};

/**
 * The required whole-house rate of a table, cfm: the row by floor area, the column by bedrooms. Steps in a
 * table are not interpolated: the cell holds.
 * @param floorArea ft² of conditioned floor, above zero @param bedrooms whole number, zero or more
 * Problems: `not-above-zero`, `bad-count`, `beyond-table` (use the equation). Never throws.
 * Source: that of the table, given in the result; the default is the IRC's.
 */
export function tableRate(
  floorArea: number,
  bedrooms: number,
  table: RateTable = ircRateTable,
): Checked<TableRate> {
  const wrong = firstProblem(
    aboveZero('floorArea', 'The conditioned floor area', floorArea, 'ft²'),
    count('bedrooms', 'The number of bedrooms', bedrooms),
  );
  if (wrong) return wrong;
  const row = table.upToArea.findIndex((upTo) => floorArea <= upTo);
  const column = table.upToBedrooms.findIndex((upTo) => bedrooms <= upTo);
  const value = table.rates[row]?.[column];
  if (value === undefined) {
    return problem(
      row < 0 ? 'floorArea' : 'bedrooms',
      'beyond-table',
      `The table ends before ${floorArea} ft² with ${bedrooms} bedrooms; use the equation instead.`,
    );
  }
  const cell = `${band(table.upToArea, row, 1)} ft², ${band(table.upToBedrooms, column, 0)} bedrooms`;
  return computed({ value, unit: 'cfm', form: 'inch-pound', cell, source: table.source });
}

function band(upTo: readonly number[], index: number, first: number): string {
  const from = index === 0 ? first : (upTo[index - 1] ?? 0) + 1;
  const to = upTo[index] ?? Infinity;
  if (to === Infinity) return `${from} and more`;
  return from === to ? `${to}` : `${from} to ${to}`;
}
