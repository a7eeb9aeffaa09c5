import type { Draw, DrawSummary } from '@countercheck/contracts';

/** Hundredths of a percent as a percentage. */
export const shareText = (share: number): string =>
  `${(share / 100).toLocaleString('en-US', { maximumFractionDigits: 2 })} %`;

export const percentText = (share: number): string =>
  `${(share * 100).toLocaleString('en-US', { maximumFractionDigits: 2 })} %`;

export const sizeText = (size: DrawSummary['size']): string =>
  'count' in size ? `${size.count.toLocaleString('en-US')} files` : `${shareText(size.share)}, rounded up`;

export const purposeWords: Record<DrawSummary['purpose'], string> = {
  'file-review': 'File reviews',
  'field-retest': 'Field re-tests',
};
export const methodWords: Record<DrawSummary['method'], string> = {
  simple: 'Simple',
  stratified: 'Stratified by rater, builder and visit kind',
  systematic: 'Systematic, random start',
  'risk-weighted': 'Weighted by risk',
};
export const methodLeads: Record<DrawSummary['method'], string> = {
  simple: 'Every file has the same chance.',
  stratified:
    'Every rater, builder and visit kind is met at least once; the sample grows where that needs it.',
  systematic: 'Every so many files along the list, sorted by rater, builder, kind and day.',
  'risk-weighted': 'Files with more risk points are drawn more often; each chance is known and kept.',
};
export const stepWords: Record<Draw['step'], string> = {
  published: 'Seed published',
  frozen: 'Population frozen',
  drawn: 'Drawn',
  ordered: 'Work ordered',
};
export const stateWords: Record<PopulationState, string> = {
  released: 'Released files',
  submitted: 'Submitted, not yet released',
  both: 'Both',
};
type PopulationState = NonNullable<Draw['frame']>['filter']['state'];
const workWords: Record<string, string> = {
  ...{ open: 'Open', done: 'Done', appealed: 'Appealed', ordered: 'To be booked', booked: 'Booked' },
  ...{ clean: 'clean', findings: 'findings', agrees: 'agrees', differs: 'differs' },
};
export const workText = (work: { state: string; outcome: string | null }): string =>
  [workWords[work.state] ?? work.state, work.outcome && (workWords[work.outcome] ?? work.outcome)]
    .filter(Boolean)
    .join(', ');
