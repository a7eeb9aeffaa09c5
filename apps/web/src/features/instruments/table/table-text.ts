import { convert, parseEntry, plainNumber, type TablePoint } from '@countercheck/measurement';

/** The units that a maker's table may come in. */
export const pressureUnits = { Pa: 'Pa', inH2O: 'in. w.c.' } as const;
export const flowUnits = { cfm: 'cfm', 'L/s': 'L/s', 'm3/h': 'm³/h' } as const;
export interface TableUnits {
  pressure: keyof typeof pressureUnits;
  flow: keyof typeof flowUnits;
}

interface ReadTable {
  /** Pa and cfm; NaN where a line could not be read, so that no schema takes it for a row */
  rows: TablePoint[];
  /** the first line that could not be read, in words */
  problem: string | null;
}

/** Two numbers a line, as typed or as pasted from a sheet; a first line of words above them is left out. */
export function readTable(text: string, units: TableUnits): ReadTable {
  const lines = text
    .split(/\r?\n/)
    .map((line, i) => ({ line: line.trim(), number: i + 1 }))
    .filter(({ line }) => line !== '');
  if (lines[0] && !/\d/.test(lines[0].line)) lines.shift();
  const problems: string[] = [];
  const rows = lines.map(({ line, number }): TablePoint => {
    const parts = split(line);
    const read = parts.map((part) => parseEntry('ratio', part, 'us'));
    const wrong =
      parts.length === 2
        ? read.find((each) => each.problem !== null)?.problem
        : `It has ${parts.length} ${parts.length === 1 ? 'entry' : 'entries'}; enter a pressure and a flow.`;
    if (wrong) {
      problems.push(`Line ${number}, “${line}”: ${wrong}`);
      return { pressure: Number.NaN, flow: Number.NaN };
    }
    const [pressure, flow] = read.map((each) => each.value ?? Number.NaN) as [number, number];
    return { pressure: inUnit(pressure, units.pressure, 'Pa'), flow: inUnit(flow, units.flow, 'cfm') };
  });
  return { rows, problem: problems[0] ?? null };
}

/** Tabs, semicolons or spaces part a line, and then a comma is a decimal sign; else one comma parts it. */
function split(line: string): string[] {
  const parts = line.split(/\s*[;\t]\s*|\s+/).map((part) => part.replace(/,$/, ''));
  return parts.length === 1 ? line.split(',') : parts;
}

function inUnit(value: number, from: Parameters<typeof convert>[1], to: Parameters<typeof convert>[2]) {
  return from === to ? value : convert(value, from, to);
}

/** Rows as lines to edit, in Pa and cfm. */
export const tableText = (table: readonly TablePoint[]): string =>
  table.map(({ pressure, flow }) => `${plainNumber(pressure, 6)}\t${plainNumber(flow, 6)}`).join('\n');
