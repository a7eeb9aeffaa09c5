import type { Visit } from '@countercheck/contracts';

export const severityWords = { remark: 'Remark', minor: 'Minor', major: 'Major' } as const;

export const visitKindWords: Record<Visit['kind'], string> = {
  rough: 'Rough-in visit',
  final: 'Final visit',
  reinspection: 'Reinspection',
  quality: 'Quality visit',
};

export const visitStateWords: Record<Visit['state'], string> = {
  booked: 'Booked',
  in_progress: 'Begun',
  submitted: 'Submitted',
  not_ready: 'House was not ready',
  cancelled: 'Cancelled',
};
