import type { FailedItem, InstallerLink, ReinspectionRequest, Visit } from '@countercheck/contracts';

/** Short, for tables and cards where it is plain that visits are meant. */
export const visitKindWords: Record<Visit['kind'], string> = {
  rough: 'Rough-in',
  final: 'Final',
  reinspection: 'Reinspection',
  quality: 'Quality visit',
};
/** Where the kind stands alone. */
export const visitTitles: Record<Visit['kind'], string> = {
  ...visitKindWords,
  rough: 'Rough-in visit',
  final: 'Final visit',
};
export const visitStateWords: Record<Visit['state'], string> = {
  booked: 'Booked',
  in_progress: 'Begun',
  submitted: 'Submitted',
  not_ready: 'House was not ready',
  cancelled: 'Cancelled',
};
export const failedStateWords: Record<FailedItem['state'], string> = {
  open: 'To be corrected',
  corrected: 'Corrected, not yet read again',
  reinspection_asked: 'Reinspection asked for',
  closed: 'Closed',
};
export const requestStateWords: Record<ReinspectionRequest['state'], string> = {
  asked: 'To be booked',
  booked: 'Booked',
  done: 'Done',
  withdrawn: 'Withdrawn',
};
export const linkStateWords: Record<InstallerLink['state'], string> = {
  open: 'Open',
  expired: 'Expired',
  revoked: 'Withdrawn',
};

/** How a failed item's state is marked: red only while somebody has to correct it. */
export const failedStateTones = {
  open: 'bad',
  corrected: 'brass',
  reinspection_asked: 'brass',
  closed: 'good',
} as const satisfies Record<FailedItem['state'], string>;

export const severityWords = { remark: 'Remark', minor: 'Minor', major: 'Major' } as const;
