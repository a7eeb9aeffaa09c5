import type * as z from 'zod';
import { airflowSchema, floorAreaSchema, houseFiguresShape, volumeSchema } from '@countercheck/contracts';
import type { Cells, Column, RowProblem } from './read-csv.ts';

export interface Numbers {
  floor_area_ft2: number | null;
  volume_ft3: number | null;
  bedrooms: number | null;
  designed_ventilation_cfm: number | null;
}

const numbers: Record<keyof Numbers, z.ZodType<number>> = {
  floor_area_ft2: floorAreaSchema,
  volume_ft3: volumeSchema,
  bedrooms: houseFiguresShape.bedrooms,
  designed_ventilation_cfm: airflowSchema,
};

const longest: Partial<Record<Column, number>> = {
  lot: 40,
  address: 200,
  community: 120,
  plan: 120,
  note: 2000,
};

function readNumber(column: keyof Numbers, cell: string, problems: RowProblem[]): number | null {
  if (cell === '') return null;
  // Written plainly or not at all: 1,850 is one number here and another there.
  if (!/^[+-]?\d+(\.\d+)?$/.test(cell)) {
    problems.push({
      column,
      message: `“${cell}” is not a number. Write digits and a point only, as in 1850.5`,
    });
    return null;
  }
  const result = numbers[column].safeParse(Number(cell));
  if (result.success) return result.data;
  problems.push({ column, message: `${cell}: ${result.error.issues[0]?.message ?? 'not plausible'}` });
  return null;
}

/** What is wrong with a text cell, whatever it is about. */
function textProblem(column: Column, cell: string): string | undefined {
  if (/^(=|@|\+|-\S)/.test(cell)) return `“${cell}” is a formula of a spreadsheet. Write its value.`;
  // eslint-disable-next-line no-control-regex -- these are what is looked for
  if (/[\u0000-\u0008\u000e-\u001f]/.test(cell)) return 'There is a character in it that nobody can see.';
  const most = longest[column];
  if (most !== undefined && cell.length > most) return `At most ${most} characters`;
  return undefined;
}

/** The cells of one row that mean something by themselves, without looking anything up. */
export function readCells(cells: Cells): { numbers: Numbers; problems: RowProblem[] } {
  const problems: RowProblem[] = [];
  for (const column of ['lot', 'address', 'community', 'plan', 'note'] as const) {
    const cell = cells[column] ?? '';
    const message = cell === '' && column !== 'note' ? 'Please fill this in' : textProblem(column, cell);
    if (message !== undefined) problems.push({ column, message });
  }
  const read = (column: keyof Numbers) => readNumber(column, cells[column] ?? '', problems);
  return {
    numbers: {
      floor_area_ft2: read('floor_area_ft2'),
      volume_ft3: read('volume_ft3'),
      bedrooms: read('bedrooms'),
      designed_ventilation_cfm: read('designed_ventilation_cfm'),
    },
    problems,
  };
}
