import type { SourceMark } from '../../source-mark.ts';
import {
  codeLetters,
  inspectionLevels,
  lotRows,
  markOfCell,
  masterTables,
  qualityLimits,
  type InspectionLevel,
  type QualityLimit,
  type Severity,
} from './tables.ts';

/** What a single sampling plan is asked for. */
export interface LotAim {
  /** units in the lot, from 2 on */
  lot: number;
  level: InspectionLevel;
  /** acceptable quality limit, percent nonconforming */
  limit: QualityLimit;
  severity: Severity;
}

/** Look at `sample` units; accept up to `accept` nonconforming, do not accept from `reject` on. */
export interface LotPlan {
  /** letter by lot size and level, and the one whose plan is used after the arrows */
  letter: string;
  usedLetter: string;
  sample: number;
  accept: number;
  reject: number;
  /** the sample is the whole lot */
  wholeLot: boolean;
  mark: SourceMark & { caution: string | null };
}

/**
 * The code letter of a lot. Throws RangeError for a lot that is not a whole number from 2 on.
 * Source: ISO 2859-1 table of code letters as seen at github:cran/AQLSchemes.
 */
export function codeLetter(lot: number, level: InspectionLevel): string {
  if (!Number.isInteger(lot) || lot < 2) throw new RangeError('A lot is a whole number from 2 on.');
  return lotRows.find(([largest]) => lot <= largest)![1][inspectionLevels.indexOf(level)]!;
}

/**
 * Where the arrows lead from a cell: the first row with numbers, down or up. Where the first row would point up there
 * is nothing above it, and the way is down.
 */
function followArrows(row: number, column: number, severity: Severity): number {
  const { diagonals } = masterTables[severity];
  // The zero of the widest limit's first row would be one unit outside of the table.
  const at = (each: number) =>
    each === 0 && column === qualityLimits.length - 1 ? 'down' : (diagonals[each + column] ?? 'up');
  let here = row;
  for (let cell = at(here); typeof cell === 'string'; cell = at(here)) here += cell === 'down' ? 1 : -1;
  return here;
}

/**
 * The single sampling plan of ISO 2859-1 for a lot: letter, arrows followed, sample and numbers. Where the sample
 * would reach the lot, the whole lot is looked at. Throws RangeError as `codeLetter`. Source and caution are in `mark`;
 * the text of the standard could not be read.
 */
export function lotPlan({ lot, level, limit, severity }: LotAim): LotPlan {
  const letter = codeLetter(lot, level);
  const column = qualityLimits.indexOf(limit);
  const { sizes, diagonals } = masterTables[severity];
  const used = followArrows(codeLetters.indexOf(letter), column, severity);
  const [accept, reject] = diagonals[used + column] as readonly [number, number];
  const wholeLot = sizes[used]! >= lot;
  return {
    letter,
    usedLetter: codeLetters[used]!,
    sample: wholeLot ? lot : sizes[used]!,
    ...{ accept, reject, wholeLot },
    mark: markOfCell(codeLetters[used]!, severity),
  };
}
