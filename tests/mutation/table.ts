import { existsSync, readFileSync } from 'node:fs';

export interface Counts {
  killed: number;
  survived: number;
  /** No test comes by at all. */
  uncovered: number;
  /** Only run while the code loads: tables of figures and the like, which are not tried. */
  left: number;
}

export interface Row extends Counts {
  label: string;
}

interface Report {
  files: Record<string, { mutants: { status: string }[] }>;
}

/** Counts the mutants of a written report by what became of them; an endless one was noticed. */
export function counted(report: string): Counts {
  const counts: Counts = { killed: 0, survived: 0, uncovered: 0, left: 0 };
  if (!existsSync(report)) return counts;
  const { files } = JSON.parse(readFileSync(report, 'utf8')) as Report;
  for (const { status } of Object.values(files).flatMap(({ mutants }) => mutants)) {
    if (status === 'Killed' || status === 'Timeout') counts.killed += 1;
    else if (status === 'Survived') counts.survived += 1;
    else if (status === 'NoCoverage') counts.uncovered += 1;
    else counts.left += 1;
  }
  return counts;
}

/** The share of mutants noticed, in percent, of those that could be. */
const scoreOf = ({ killed, survived, uncovered }: Counts) => (100 * killed) / (killed + survived + uncovered);

/** Prints a line for each folder and one for all of them, and gives the score of all. */
export function printTable(rows: Row[]) {
  const total: Row = { label: 'all', killed: 0, survived: 0, uncovered: 0, left: 0 };
  for (const row of rows) {
    for (const count of ['killed', 'survived', 'uncovered', 'left'] as const) total[count] += row[count];
  }
  console.log('\nfolder                        tried  noticed  survived  no test  at load   score');
  for (const row of [...rows, total]) {
    const tried = row.killed + row.survived + row.uncovered;
    const counts = [tried, row.killed, row.survived, row.uncovered, row.left];
    const widths = [7, 9, 10, 9, 9];
    const cells = counts.map((count, index) => String(count).padStart(widths[index]!));
    const score = tried === 0 ? '–' : `${scoreOf(row).toFixed(1)} %`;
    console.log(`${row.label.padEnd(28)}${cells.join('')}${score.padStart(9)}`);
  }
  return scoreOf(total);
}
