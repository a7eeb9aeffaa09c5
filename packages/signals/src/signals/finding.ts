import type { SignalKey } from './keys.ts';

/** A drawing of what a test looked at, with the numbers for the table beside it. */
export interface Evidence {
  /** what a row of the table is, and what its numbers are */
  columns: string[];
  rows: (string | number | null)[][];
  /** drawn as what was found beside what was expected, or only told in the table */
  kind: 'bars' | 'none';
  xLabel: string;
  yLabel: string;
}

/** What a test said about the readings of one rater over a period. */
export interface Outcome {
  signal: SignalKey;
  /** how many numbers the test looked at */
  looked: number;
  /** probability of something at least as unusual when the null hypothesis holds; null when there was too little */
  p: number | null;
  /** one sentence on the readings, for people; never on a person */
  sentence: string;
  /** the houses behind it, those that weigh most first */
  houseIds: string[];
  evidence: Evidence;
}

/** At most so many houses stand behind a finding; more would not be read. */
export const mostHouses = 60;

const noEvidence: Evidence = { columns: [], rows: [], kind: 'none', xLabel: '', yLabel: '' };

/** Too little was read for the test to say anything. */
export const tooLittle = (signal: SignalKey, looked: number): Outcome => ({
  ...{ signal, looked, p: null, houseIds: [], evidence: noEvidence },
  sentence: 'Too few readings to say anything.',
});

export const percent = (share: number): string => `${(share * 100).toFixed(share < 0.1 ? 1 : 0)} %`;
