import type { Problem } from '../types.ts';
import { plainNumber } from '../units/round.ts';
import type { TablePoint } from './table-flow.ts';

/** Two rows make a power law, and a mistyped one would never show: a third has to agree with them. */
const fewestTableRows = 3;

/** The exponents that a flow device's calibration may plausibly have, as d ln flow / d ln pressure. */
const plausibleExponents = { least: 0.3, most: 1.2 } as const;

/**
 * What keeps a flow device's table from being used, or null. Rows are counted from 1 in the order given, so that the
 * words name the row as it was typed.
 * @param table rows of pressure (Pa) and flow (cfm), in any order
 * @param window the pressures (Pa) for which the range is said to hold; left out, it is that of the table
 * Problems, all at `table`: `too-few-points` (fewer than `fewestTableRows`), `not-a-number`, `not-above-zero`,
 * `repeated-point`, `not-growing` (more pressure without more flow), `outside-table` (the window is wider than the
 * table). Never throws. Source of the least number of rows: common practice, no published source; of the rest: as
 * `tableFlow`, which extrapolates nothing.
 */
export function tableProblem(
  table: readonly TablePoint[],
  window?: { minPa: number; maxPa: number },
): Problem | null {
  if (table.length < fewestTableRows) {
    return wrong(
      'too-few-points',
      `The table has ${table.length} of the ${fewestTableRows} rows that it needs at least. Enter every row of the maker's table.`,
    );
  }
  for (const [i, { pressure, flow }] of table.entries()) {
    if (!Number.isFinite(pressure) || !Number.isFinite(flow))
      return wrong('not-a-number', `Row ${i + 1} needs two numbers, a pressure and a flow.`);
    if (pressure <= 0 || flow <= 0) {
      const row = `Row ${i + 1} has ${plainNumber(flow)} cfm at ${plainNumber(pressure)} Pa`;
      return wrong('not-above-zero', `${row}. Both must be above zero; leave out a row for zero.`);
    }
  }
  return orderProblem(table) ?? windowProblem(table, window);
}

function orderProblem(table: readonly TablePoint[]): Problem | null {
  const rows = ranked(table);
  for (const [i, { pressure, flow, row }] of rows.entries()) {
    const before = rows[i - 1];
    if (!before) continue;
    if (pressure === before.pressure) {
      const message = `Rows ${before.row} and ${row} both have ${plainNumber(pressure)} Pa. Keep one of them.`;
      return wrong('repeated-point', message);
    }
    if (flow <= before.flow) {
      const grows = `from ${plainNumber(before.flow)} cfm at ${plainNumber(before.pressure)} Pa (row ${before.row}) to ${plainNumber(flow)} cfm at ${plainNumber(pressure)} Pa (row ${row})`;
      const message = `The flow goes ${grows}, but more pressure means more flow. Check both rows.`;
      return wrong('not-growing', message);
    }
  }
  return null;
}

function windowProblem(
  table: readonly TablePoint[],
  window: { minPa: number; maxPa: number } | undefined,
): Problem | null {
  const pressures = table.map(({ pressure }) => pressure);
  const [low, high] = [Math.min(...pressures), Math.max(...pressures)];
  if (!window || (window.minPa >= low && window.maxPa <= high)) return null;
  return wrong(
    'outside-table',
    `The range is said to hold from ${plainNumber(window.minPa)} to ${plainNumber(window.maxPa)} Pa, but the table holds from ${plainNumber(low)} to ${plainNumber(high)} Pa, and nothing is extrapolated. Narrow the range or add rows.`,
  );
}

/** A stretch of a table that is allowed, yet looks mistyped. */
export interface TableDoubt {
  /** the two rows, counted from 1 in the order given */
  rows: readonly [number, number];
  /** d ln flow / d ln pressure between them */
  exponent: number;
  words: string;
}

/**
 * Stretches of a table between whose rows the flow grows faster or slower than any flow device's does
 * (`plausibleExponents`, limits included): usually a slip of a digit. For a table without `tableProblem`; nothing is
 * refused for it, because a maker rounds small flows. Never throws. Source of the exponents: common practice, no
 * published source.
 */
export function tableDoubts(table: readonly TablePoint[]): TableDoubt[] {
  const rows = ranked(table);
  return rows.flatMap((to, i): TableDoubt[] => {
    const from = rows[i - 1];
    if (!from) return [];
    const exponent = Math.log(to.flow / from.flow) / Math.log(to.pressure / from.pressure);
    // The grain keeps a table computed from an exponent at the limit inside it.
    const grain = 1e-9;
    const { least, most } = plausibleExponents;
    if (exponent >= least - grain && exponent <= most + grain) return [];
    const pace = exponent > most ? 'faster' : 'more slowly';
    return [
      {
        rows: [from.row, to.row],
        exponent,
        words: `From ${plainNumber(from.pressure)} to ${plainNumber(to.pressure)} Pa (rows ${from.row} and ${to.row}) the flow grows with the pressure to the power ${plainNumber(exponent, 2)}, ${pace} than in flow devices (${least} to ${most}). Compare both rows with the certificate.`,
      },
    ];
  });
}

function ranked(table: readonly TablePoint[]) {
  return table
    .map((point, i) => ({ ...point, row: i + 1 }))
    .sort((a, b) => a.pressure - b.pressure || a.row - b.row);
}

function wrong(code: string, message: string): Problem {
  return { path: 'table', code, message };
}
