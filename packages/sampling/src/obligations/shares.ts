import type { SourceMark } from '../source-mark.ts';

/** What share of a rater's work is looked at again, and how many at the least. */
export interface ObligationShare extends SourceMark {
  /** hundredths of a percent: 1000 = 10 % */
  share: number;
  minimum: number;
}

export const obligationKinds = ['file-review', 'field-retest'] as const;
export type ObligationKind = (typeof obligationKinds)[number];

/** The shares a company begins with; it may set its own. */
export const defaultShares: Record<ObligationKind, ObligationShare> = {
  'file-review': {
    ...{ share: 1000, minimum: 1, mark: 'seen' },
    source:
      'RESNET standards, chapter 9: 10 % of files per rater and year, https://www.resnet.us/about/quality-assurance/',
  },
  'field-retest': {
    ...{ share: 100, minimum: 1, mark: 'seen' },
    source:
      'RESNET amendment QA 2005-1: the greater of one home or 1 % per rater and year, https://resnet.us/about/standards/minhers/amendment-qa-2005-1',
  },
};

/** The share in force: the company's, or what a corrective action raised it to, whichever is more. Never throws. */
export const shareInForce = (usual: number, raised: readonly (number | null)[]): number =>
  Math.max(usual, ...raised.map((each) => each ?? 0));
