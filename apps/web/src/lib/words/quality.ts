import type { FileFinding, FileReviewSummary, RetestSummary } from '@countercheck/contracts';

export const sourceWords: Record<FileReviewSummary['source'], string> = {
  draw: 'Drawn',
  signal: 'From a signal',
  manual: 'Ordered by hand',
  corrective: 'Corrective action',
};
export const reviewStateWords: Record<FileReviewSummary['state'], string> = {
  open: 'Open',
  done: 'Finished',
  appealed: 'Under appeal',
  withdrawn: 'Withdrawn',
};
export const findingStateWords: Record<FileFinding['state'], string> = {
  open: 'To be answered',
  answered: 'Answered',
  appealed: 'Under appeal',
  settled: 'Settled',
  struck: 'Struck',
};
export const findingStateTones = {
  open: 'bad',
  answered: 'brass',
  appealed: 'brass',
  settled: 'good',
  struck: 'plain',
} as const satisfies Record<FileFinding['state'], string>;
export const decisionWords = {
  upheld: 'The finding stands',
  changed: 'The finding stands with another severity',
  struck: 'The finding is struck',
} as const;
export const retestStateWords: Record<RetestSummary['state'], string> = {
  ordered: 'To be booked',
  booked: 'Booked',
  done: 'Done',
  withdrawn: 'Withdrawn',
};
