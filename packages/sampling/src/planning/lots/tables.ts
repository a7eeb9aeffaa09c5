import type { SourceMark } from '../../source-mark.ts';

/** Code letters of sample sizes; there is no I and no O. */
export const codeLetters = 'ABCDEFGHJKLMNPQR';

export const inspectionLevels = ['S-1', 'S-2', 'S-3', 'S-4', 'I', 'II', 'III'] as const;
export type InspectionLevel = (typeof inspectionLevels)[number];

/** Largest lot of each row and its letters for the levels S-1, S-2, S-3, S-4, I, II, III. */
export const lotRows: readonly (readonly [largest: number, letters: string])[] = [
  [8, 'AAAAAAB'],
  [15, 'AAAAABC'],
  [25, 'AABBBCD'],
  [50, 'ABBCCDE'],
  [90, 'BBCCCEF'],
  [150, 'BBCDDFG'],
  [280, 'BCDEEGH'],
  [500, 'BCDEFHJ'],
  [1200, 'CCEFGJK'],
  [3200, 'CDEGHKL'],
  [10_000, 'CDFGJLM'],
  [35_000, 'CDFHKMN'],
  [150_000, 'DEGJLNP'],
  [500_000, 'DEGJMPQ'],
  [Infinity, 'DEHKNQR'],
];

/** Acceptable quality levels held here, percent nonconforming. */
export const qualityLimits = [0.65, 1, 1.5, 2.5, 4, 6.5, 10] as const;
export type QualityLimit = (typeof qualityLimits)[number];

export const severities = ['normal', 'tightened', 'reduced'] as const;
export type Severity = (typeof severities)[number];

/** One diagonal of a master table: acceptance and rejection numbers, or where the arrow points. */
export type Diagonal = readonly [ac: number, re: number] | 'up' | 'down';

interface MasterTable {
  sizes: readonly number[];
  /**
   * A master table repeats along its diagonals: the cell of letter i and limit j (both from 0) is diagonal i + j;
   * beyond the last one every arrow points up.
   */
  diagonals: readonly Diagonal[];
}

const common = [2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000];

export const masterTables: Record<Severity, MasterTable> = {
  normal: {
    sizes: common,
    diagonals: [
      ...['down', 'down', 'down', 'down', 'down', [0, 1], 'up', 'down'],
      ...[
        [1, 2],
        [2, 3],
        [3, 4],
        [5, 6],
        [7, 8],
        [10, 11],
        [14, 15],
        [21, 22],
      ],
    ] as Diagonal[],
  },
  tightened: {
    sizes: common,
    diagonals: [
      ...['down', 'down', 'down', 'down', 'down', 'down', [0, 1], 'down', 'down'],
      ...[
        [1, 2],
        [2, 3],
        [3, 4],
        [5, 6],
        [8, 9],
        [12, 13],
        [18, 19],
      ],
    ] as Diagonal[],
  },
  reduced: {
    sizes: [2, 2, 2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800],
    diagonals: [
      ...['down', 'down', 'down', 'down', 'down', [0, 1], 'up', 'down'],
      ...[
        [0, 2],
        [1, 3],
        [1, 4],
        [2, 5],
        [3, 6],
        [5, 8],
        [7, 10],
        [10, 13],
      ],
    ] as Diagonal[],
  },
};

const seenLetters = 'ABCDEGHJLMP';

/**
 * Where a cell comes from. Rows that were seen, and rows that continue the diagonals of those; the caution tells what
 * was checked against one source only. Never throws.
 */
export function markOfCell(letter: string, severity: Severity): SourceMark & { caution: string | null } {
  const seen = seenLetters.includes(letter);
  const second = severity === 'normal' || (severity === 'tightened' && letter <= 'L');
  return {
    mark: seen ? 'seen' : 'computed',
    source: seen
      ? 'ISO 2859-1 / ANSI Z1.4 single plans as the documentation data of github:cran/AQLSchemes hold them' +
        (second ? ', and http://www.nibs.org/FMOC/DPW_AC/AC-TABLE.ASC' : '')
      : 'continued along the diagonals of the rows that were seen',
    caution: second
      ? null
      : 'Seen in one source only: compare with MIL-STD-105E, table II-B or II-C, before anything is decided by it.',
  };
}
